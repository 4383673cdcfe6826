export { latePlan } from "./late.ts";
export { MINUTES, shedRun, shedSchedule } from "./run.ts";
