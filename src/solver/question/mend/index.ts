export { mend, mendRun } from "./run.ts";
export type { MendRun, MendSettings } from "./run.ts";
