export { chanceOf, chanceWords } from "./chance.ts";
export type { Chance } from "./chance.ts";
export { acting, CARRIES_ON, crewOf } from "./crew.ts";
export type { CrewRules } from "./crew.ts";
export { PERCENTILES } from "./report.ts";
export type {
  Bands,
  EvaOdds,
  Hurt,
  MarginOdds,
  OddsProgress,
  OddsReport,
  Spoil,
  TaskOdds,
  WorthOdds,
} from "./report.ts";
export { MOST_DAYS, oddsRun } from "./run.ts";
export type { OddsRun, OddsSettings } from "./run.ts";
export type { Shape } from "../../kernel/index.ts";
