export { fitBands } from "./question/bands.ts";
export { greedy } from "./greedy.ts";
export { gridded } from "./gridded.ts";
export { mendRun } from "./question/mend/index.ts";
export { packRun } from "./pack.ts";
export { benchReasons } from "./question/reasons.ts";
export { whyRun } from "./question/why/index.ts";
