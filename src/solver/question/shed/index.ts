export { latePlan } from "./late.ts";
export { MINUTES } from "./report.ts";
export type { AheadCell, ShedCell, ShedEva, ShedProgress, ShedReport, ShedRow } from "./report.ts";
export { shedRun, shedSchedule } from "./run.ts";
export type { ShedRun, ShedSettings } from "./run.ts";
