import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan } from "../tinyPlan.ts";

/** EV1 alone is out from 1100 to 3500 (see eva-bounds); somebody sleeps from `startS` to `endS`. */
export const plan = (startS: number, endS: number, crew: string[] = [], tightS = 0) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("one", "a")],
    placements: [at("one", 2000)],
    stay: { blocks: [{ id: "night", name: "Sleep", kind: "sleep", crew, startS, endS }] },
    rules: { tightS },
  });

export const stayBlocks: Pairs = [
  {
    breaks: ["sleep begins a second before ingress is complete", plan(3499, 9000)],
    holds: ["sleep begins at ingress complete", plan(3500, 9000)],
  },
  {
    breaks: ["sleep ends a second after egress", plan(0, 1101)],
    holds: ["sleep ends at egress", plan(0, 1100)],
  },
];
