export { curveRun, wishRun } from "./run.ts";
export type { WishProgress, WishRun, WishSettings } from "./run.ts";
