import type { PlanInput } from "../../plan.ts";

/**
 * The ground of Tarrow Shelf, made from a recipe: gently rolling, with worn small craters, and on it the landforms that
 * places are named after. Osier is a worn crater on a broad swell, Cowl Dome and Grey Step are low rises, Shade Hollow
 * a shallow dip. The seed is one of those that leave every place on ground that may be walked.
 */
export const shelfGround: NonNullable<PlanInput["ground"]> = {
  type: "made",
  westM: -1300,
  southM: -1150,
  cellM: 10,
  columns: 281,
  rows: 261,
  detour: 1.05,
  aim: "time",
  seed: 3,
  roughnessM: 5,
  hurst: 0.95,
  cratered: 0.02,
  steepness: 2.2,
  largestM: 150,
  landforms: [
    { type: "dome", eastM: 900, northM: 850, diameterM: 2000, heightM: 38 },
    { type: "dome", eastM: -380, northM: -900, diameterM: 620, heightM: 44 },
    { type: "dome", eastM: -1160, northM: 290, diameterM: 520, heightM: 20 },
    { type: "dome", eastM: 95, northM: -118, diameterM: 110, heightM: -3 },
    { type: "crater", eastM: 760, northM: 860, diameterM: 560, freshness: 0.5 },
  ],
};
