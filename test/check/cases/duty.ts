import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan } from "../tinyPlan.ts";

/** Two EVAs of EV1, 600 + 300 + 600 + 300 + 600 = 2400 s each: 4800 s. */
export const plan = (stayS: number, tightS = 0) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: ["ev1"] })],
    tasks: [task("one", "a"), task("two", "a")],
    placements: [at("one", 2000), at("two", 20_000, ["ev1"], "eva-2")],
    rules: { duty: { stayS }, tightS },
  });

export const duty: Pairs = [
  {
    breaks: ["4800 s out, 4799 s allowed", plan(4799)],
    says: { need: 4799, have: 4800 },
    holds: ["4800 s out, 4800 s allowed", plan(4800)],
  },
];
