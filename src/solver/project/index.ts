export { projectOf } from "./compile.ts";
export { projectRun } from "./run.ts";
