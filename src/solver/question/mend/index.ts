export { mend, mendRun } from "./run.ts";
