export { chanceOf, chanceWords } from "./chance.ts";
export type { Chance } from "./chance.ts";
export { PERCENTILES } from "./report.ts";
export type {
  Bands,
  EvaOdds,
  Hurt,
  MarginOdds,
  OddsProgress,
  OddsReport,
  TaskOdds,
  WorthOdds,
} from "./report.ts";
export { MOST_DAYS, oddsRun } from "./run.ts";
export type { OddsRun, OddsSettings } from "./run.ts";
export type { Shape } from "../../kernel/index.ts";
