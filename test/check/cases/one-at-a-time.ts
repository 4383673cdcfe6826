import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan } from "../tinyPlan.ts";

/** EV1 is at a from 2000 to 2600 and at b, 300 m on, from `secondS`. */
export const plan = (secondS: number) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("one", "a"), task("two", "b")],
    placements: [at("one", 2000), at("two", secondS)],
  });

/** EV1 out on two EVAs; the first is in at 2000 + 600 + 300 + 600 = 3500, the second out 900 s before `secondS`. */
const outings = (secondS: number) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: ["ev1"] })],
    tasks: [task("one", "a"), task("two", "a")],
    placements: [at("one", 2000), at("two", secondS, ["ev1"], "eva-2")],
    rules: { recharge: { level: "warning" } },
  });

export const oneAtATime: Pairs = [
  {
    breaks: ["299 s for a walk of 300 s", plan(2899)],
    says: { need: 300, have: 299 },
    holds: ["300 s for a walk of 300 s", plan(2900)],
  },
  {
    breaks: ["out again a second before being in", outings(4399)],
    says: { need: 0, have: -1 },
    holds: ["out again as soon as in", outings(4400)],
  },
];
