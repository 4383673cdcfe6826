import type { Pairs } from "../pair.ts";
import { at, remote, task, tinyPlan } from "../tinyPlan.ts";

/** A task of 600 s at 2000, to lie in one of `windows`. */
export const plan = (windows: { startS: number; endS: number }[], tightS = 0) =>
  tinyPlan({ tasks: [task("one", "a", { windows })], placements: [at("one", 2000)], rules: { tightS } });

// The stay lasts 72 000 s.
export const remoteAt = (startS: number) =>
  tinyPlan({ tasks: [task("far", null)], placements: [remote("far", startS)] });

export const timeWindow: Pairs = [
  {
    breaks: ["ends a second after its window", plan([{ startS: 2000, endS: 2599 }])],
    says: { need: 0, have: -1 },
    holds: ["fills its window to the second", plan([{ startS: 2000, endS: 2600 }])],
  },
  {
    breaks: ["remote work ends a second after liftoff", remoteAt(71_401)],
    says: { need: 0, have: -1 },
    holds: ["remote work ends at liftoff", remoteAt(71_400)],
  },
];
