export { projectOf } from "./compile.ts";
export type { ProjectProblem } from "./compile.ts";
export { projectRun } from "./run.ts";
export type { ProjectProgress, ProjectRun } from "./run.ts";
