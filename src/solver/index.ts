export { fitBands } from "./bands.ts";
export type { FitBand } from "./bands.ts";
export { greedy } from "./greedy.ts";
export { packRun } from "./pack.ts";
export type { PackRun, PackSettings, RunProgress } from "./pack.ts";
