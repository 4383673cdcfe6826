export { latePlan } from "./lasting.ts";
export { MINUTES, lateTableRun, lateSchedule } from "./run.ts";
