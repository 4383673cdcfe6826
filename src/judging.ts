/** What judges and walks, fetched when the first picture of the plan is painted: the page needs it from the first verdict on. */
export { judgeFor } from "./check/index.ts";
export { sunDegOver, takeWorkedWays, type NamedWays, walksOf } from "./terrain/index.ts";
