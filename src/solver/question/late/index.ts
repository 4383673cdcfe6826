export { MINUTES, lateTableRun } from "./run.ts";
