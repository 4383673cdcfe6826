export { mendRun } from "./run.ts";
