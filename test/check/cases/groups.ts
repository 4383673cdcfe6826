import type { Pairs } from "../pair.ts";
import { at, task, tinyPlan } from "../tinyPlan.ts";

export interface Wanted {
  readonly least?: number;
  readonly most?: number;
  readonly shares?: number[];
}

/** Three trenches of 50, 90 and 33 points in one group, the first `placed` of them done one after the other. */
export const parts = (placed: number, group: Wanted) => ({
  tasks: [50, 90, 33].map((worth, i) => task(`t${i}`, "a", { worth })),
  placements: [0, 1, 2].slice(0, placed).map((i) => at(`t${i}`, 2000 + 1000 * i)),
  more: { groups: [{ id: "trenches", name: "Trenches", tasks: ["t0", "t1", "t2"], ...group }] },
});

export const plan = (placed: number, group: Wanted) => tinyPlan(parts(placed, group));

export const groupMost: Pairs = [
  {
    breaks: ["three where two may be", plan(3, { most: 2 })],
    says: { need: 2, have: 3 },
    holds: ["two where two may be", plan(2, { most: 2 })],
  },
];

export const groupLeast: Pairs = [
  {
    level: "open",
    breaks: ["one where three must be", plan(1, { least: 3 })],
    says: { need: 3, have: 1 },
    holds: ["two where two must be", plan(2, { least: 2 })],
  },
];
