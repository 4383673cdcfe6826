export { glanceRun } from "./glance.ts";
export { oddsRun } from "./run.ts";
