export { whyRun } from "./run.ts";
