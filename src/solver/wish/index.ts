export { curveRun, wishRun } from "./run.ts";
export type { WishRun } from "./run.ts";
