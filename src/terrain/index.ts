export { crosses, distance, distanceToLine, inside } from "./shapes.ts";
export type { Point, Shape } from "./shapes.ts";
export { stops, waysOf } from "./ways.ts";
export type { Gait, Ground, Ways } from "./ways.ts";
export { homeOf } from "./home.ts";
export type { Home } from "./home.ts";
