import type { Pairs } from "../pair.ts";
import { at, task, tinyPlan } from "../tinyPlan.ts";

/** EV1 at a (300, 0) and EV2 at c (0, 400) at the same time: 500 m apart. */
export const plan = (greatestM: number) =>
  tinyPlan({
    tasks: [task("one", "a"), task("two", "c")],
    placements: [at("one", 2000), at("two", 2000, ["ev2"])],
    rules: { separation: { greatestM } },
  });

/**
 * EV1 roams about a from 2000 to 2600, 200 m there and back: 100 m off. EV2 walks from a, at 2300, to b, 300 m on, where they are at 2600: 400 m
 * apart at that moment and no other, since EV1 stays at a from then on and does not roam.
 */
const roaming = (greatestM: number) =>
  tinyPlan({
    tasks: [
      task("roam", "a", { walkM: 200 }),
      task("stay", "a", { duration: { likelyS: 1200 } }),
      task("with", "a", { duration: { likelyS: 300 } }),
      task("away", "b", { duration: { likelyS: 100 } }),
    ],
    placements: [at("roam", 2000), at("stay", 2600), at("with", 2000, ["ev2"]), at("away", 2600, ["ev2"])],
    rules: { separation: { greatestM } },
  });

export const crewSeparation: Pairs = [
  {
    breaks: ["500 m apart, 499.9 m allowed", plan(499.9)],
    says: { need: 499.9, have: 500 },
    holds: ["500 m apart, 500 m allowed", plan(500)],
  },
  {
    breaks: ["400 m apart as a walk about a place ends", roaming(399.9)],
    says: { need: 399.9, have: 400 },
    holds: ["400 m allowed", roaming(400)],
  },
];
