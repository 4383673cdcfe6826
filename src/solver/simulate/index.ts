export { chanceOf, chanceWords } from "./chance.ts";
export { acting, CARRIES_ON, crewOf } from "./crew.ts";
export { glanceRun } from "./glance.ts";
export { MOST_DAYS, oddsRun, PERCENTILES } from "./run.ts";
export type { OddsRun, OddsSettings } from "./run.ts";
