export { whyRun } from "./run.ts";
export type { WhyRun, WhySettings } from "./run.ts";
