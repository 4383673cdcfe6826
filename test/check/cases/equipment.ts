import type { Pairs } from "../pair.ts";
import { at, task, tinyPlan } from "../tinyPlan.ts";

export const drill = { equipment: [{ equipment: "drill" }] };

/** EV1 drills at a from 2000 to 2600; EV2 drills there from `secondS`. */
export const plan = (secondS: number, count = 1) =>
  tinyPlan({
    tasks: [task("one", "a", drill), task("two", "a", drill)],
    placements: [at("one", 2000), at("two", secondS, ["ev2"])],
    more: { equipment: [{ id: "drill", name: "Drill", count }] },
  });

export const equipment: Pairs = [
  {
    breaks: ["the second begins a second before the first ends", plan(2599)],
    says: { need: 2, have: 1 },
    holds: ["the second begins as the first ends", plan(2600)],
  },
];
