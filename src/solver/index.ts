export { greedy } from "./greedy.ts";
export { packRun } from "./pack.ts";
export type { PackRun, PackSettings, RunProgress } from "./pack.ts";
