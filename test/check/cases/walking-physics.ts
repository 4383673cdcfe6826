import type { Pairs } from "../pair.ts";
import { at, task, tinyPlan } from "../tinyPlan.ts";

/** EV1 works at `a`, walking there and back at these speeds, m/s. */
export const plan = (plannedMs: number, backMs: number, place = "a") =>
  tinyPlan({
    tasks: [task("work", place)],
    placements: [at("work", 2000)],
    rules: { walking: { speedMs: plannedMs }, walkback: { speedMs: backMs } },
  });

export const walkingPhysics: Pairs = [
  // 7.0 km/h is 1.9444 m/s.
  {
    breaks: ["the walk-back at 1.945 m/s", plan(1.9, 1.945)],
    says: { need: 7 / 3.6, have: 1.945 },
    holds: ["both at 1.944 m/s", plan(1.944, 1.944)],
  },
  {
    breaks: ["planned at 3 m/s and back at 5 m/s", plan(3, 5)],
    says: { need: 7 / 3.6, have: 5 },
    holds: ["planned and back at 1 m/s", plan(1, 1)],
  },
];
