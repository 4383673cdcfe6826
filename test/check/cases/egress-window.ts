import type { Pairs } from "../pair.ts";
import { at, task, tinyPlan } from "../tinyPlan.ts";

/** `first` at a, from `firstS` on, and `second` at a from 4000 s on: egress 600 + 300 s before the first. */
export const plan = (firstS: number, pet: { startS?: number; endS?: number }, tightS = 0) =>
  tinyPlan({
    tasks: [task("first", "a"), task("second", "a", { pet })],
    placements: [at("first", firstS), at("second", 4000)],
    rules: { tightS },
  });

export const egressWindow: Pairs = [
  {
    breaks: ["a second too soon after egress", plan(1900, { startS: 3001 })],
    says: { need: 0, have: -1 },
    holds: ["right at its begin", plan(1900, { startS: 3000 })],
  },
  {
    breaks: ["over a second too late after egress", plan(1900, { endS: 3599 })],
    says: { need: 0, have: -1 },
    holds: ["right at its end", plan(1900, { startS: 3000, endS: 3600 })],
  },
];
