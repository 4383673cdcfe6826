import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "../tinyPlan.ts";

export const parts = (emergencyOxygenS: number, more: TinyParts = {}): TinyParts => ({
  evas: [eva("eva-1", { crew: ["ev1"] })],
  tasks: [task("far", "b")],
  placements: [at("far", 2000)],
  suit: { emergencyOxygenS },
  ...more,
});

// b lies 600 m out, walked back at 1 m/s: 600 s. Pack of 780 s less 180 s kept back: 600 s.
const reserve = { rules: { walkback: { emergencyReserveS: 180 } } };

export const walkBackEmergency: Pairs = [
  {
    breaks: ["600 s to walk, 599 s allowed", tinyPlan(parts(779, reserve))],
    says: { need: 600, have: 599 },
    holds: ["600 s to walk, 600 s allowed", tinyPlan(parts(780, reserve))],
  },
];
