import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "../tinyPlan.ts";

/**
 * EV1 alone: airlock 600 s, 300 s to a, 600 s of work; then `pauseS` at a; 600 s of work, 300 s home, airlock 600 s.
 * Each side is 1500 s of work and walking.
 */
export const plan = (pauseS: number, longestS: number, tightS = 0, more: TinyParts = {}) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("one", "a"), task("two", "a")],
    placements: [at("one", 2000), at("two", 2600 + pauseS)],
    rules: { work: { longestS, restS: 600 }, tightS },
    ...more,
  });

export const workAndRest: Pairs = [
  {
    breaks: ["1500 s of work, 1499 s allowed", plan(600, 1499)],
    says: { need: 1499, have: 1500 },
    holds: ["1500 s of work, 1500 s allowed", plan(600, 1500)],
  },
  // A pause a second too short ends nothing: 1500 + 599 + 1500 = 3599 s.
  {
    breaks: ["a pause of 599 s is no rest", plan(599, 1500)],
    says: { need: 1500, have: 3599 },
    holds: ["a pause of 600 s is a rest", plan(600, 1500)],
  },
];
