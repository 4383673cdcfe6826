export { curveRun, wishRun } from "./run.ts";
export type { WishRun, WishSettings } from "./run.ts";
