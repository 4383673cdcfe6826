import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan } from "../tinyPlan.ts";

/** EV1 is in at 3500 and out again 900 s before 20 000, at 19 100: 15 600 s in between. */
export const plan = (
  leastS: number,
  second: string[] = ["ev1"],
  level: "breach" | "warning" = "breach",
  tightS = 0,
) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: second })],
    tasks: [task("one", "a"), task("two", "a")],
    placements: [at("one", 2000), at("two", 20_000, second, "eva-2")],
    rules: { recharge: { leastS, level }, tightS },
  });

export const recharge: Pairs = [
  {
    breaks: ["15 600 s, a second more asked for", plan(15_601)],
    says: { need: 15_601, have: 15_600 },
    holds: ["15 600 s asked for", plan(15_600)],
  },
];
