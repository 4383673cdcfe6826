export type { Cost, Relaxation } from "./relax.ts";
export type { SaidClash, WhyReport } from "./report.ts";
export { whyRun } from "./run.ts";
export type { WhyRun, WhySettings } from "./run.ts";
export type { SaidCause } from "./words.ts";
