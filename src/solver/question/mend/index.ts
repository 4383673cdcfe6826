export { mend, mendRun } from "./run.ts";
export type { Mended, MendRun, MendSettings } from "./run.ts";
