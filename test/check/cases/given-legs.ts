import { FASTEST_MS } from "../../../src/physics/index.ts";
import type { PlanInput } from "../../../src/plan/plan.ts";
import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "../tinyPlan.ts";

type Leg = NonNullable<PlanInput["site"]["legs"]>[number];

/** EV1 alone at `b`, 600 m out, by a given leg; everybody walks at 1 m/s, 3.6 km/h. */
export const plan = (leg: Partial<Leg>, more: TinyParts = {}) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("work", "b")],
    placements: [at("work", 4000)],
    site: { legs: [{ from: "lander", to: "b", distanceM: 600, durationS: 600, ...leg }] },
    ...more,
  });

export const walkingPhysics: Pairs = [
  {
    breaks: ["a leg of 599 m where the straight line is 600 m", plan({ distanceM: 599 })],
    says: { need: 600, have: 599 },
    holds: ["a leg of 600 m", plan({})],
  },
  // 7.0 km/h is the fastest suited walk timed in 1/6 g (published): 700 m in 360 s.
  {
    breaks: ["700 m in 359 s", plan({ distanceM: 700, durationS: 359 })],
    says: { need: FASTEST_MS, have: 700 / 359 },
    holds: ["700 m in 360 s", plan({ distanceM: 700, durationS: 360 })],
  },
  {
    breaks: ["a worst walk-back of 599 m on a leg to a place 600 m out", plan({ walkbackPeakM: 599 })],
    says: { need: 600, have: 599 },
    holds: ["one of 600 m", plan({ walkbackPeakM: 600 })],
  },
];
