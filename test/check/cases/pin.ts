import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan, type TaskInput } from "../tinyPlan.ts";

export const plan = (pin: TaskInput["pin"], placed = true) =>
  tinyPlan({
    evas: [eva("eva-1"), eva("eva-2")],
    tasks: [task("one", "a", { pin, crew: { count: 2 } })],
    placements: placed ? [at("one", 2000, ["ev2", "ev1"])] : [],
  });

export const pin: Pairs = [
  {
    breaks: ["starts a second late", plan({ startS: 1999 })],
    says: { need: 1999, have: 2000 },
    holds: ["starts as pinned", plan({ startS: 2000 })],
  },
  {
    breaks: ["on another EVA", plan({ eva: "eva-2" })],
    holds: ["on the pinned EVA", plan({ eva: "eva-1" })],
  },
  {
    breaks: ["one of the pinned two", plan({ crew: ["ev1"] })],
    holds: ["the pinned two, in any order", plan({ crew: ["ev1", "ev2"] })],
  },
];
