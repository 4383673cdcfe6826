import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan } from "../tinyPlan.ts";

/** EV1 walks to b and home, 600 m each way, on each of two EVAs, and `walkM` more inside the first task. */
export const plan = (evaM: number, stayM: number, walkM = 0) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: ["ev1"] })],
    tasks: [task("one", "b", { walkM }), task("two", "b")],
    placements: [at("one", 2000), at("two", 20_000, ["ev1"], "eva-2")],
    rules: { distance: { evaM, stayM } },
  });

export const evaDistance: Pairs = [
  // 600 + 600 + 100 inside the task = 1300 m.
  {
    breaks: ["1300 m walked, 1299 m allowed", plan(1299, 9999, 100)],
    says: { need: 1299, have: 1300 },
    holds: ["1300 m walked, 1300 m allowed", plan(1300, 9999, 100)],
  },
];

export const stayDistance: Pairs = [
  // 1300 + 1200 = 2500 m.
  {
    breaks: ["2500 m walked, 2499 m allowed", plan(9999, 2499, 100)],
    says: { need: 2499, have: 2500 },
    holds: ["2500 m walked, 2500 m allowed", plan(9999, 2500, 100)],
  },
];
