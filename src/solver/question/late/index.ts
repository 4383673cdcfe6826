export { lateTableRun } from "./run.ts";
