export { latePlan } from "./late.ts";
export { MINUTES, shedRun, shedSchedule } from "./run.ts";
export type { ShedRun, ShedSettings } from "./run.ts";
