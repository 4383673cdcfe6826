import type { Pairs } from "../pair.ts";
import { at, task, tinyPlan } from "../tinyPlan.ts";

/** A relay task of 600 s at 2000. */
export const plan = (passes: [number, number][], tightS = 0) =>
  tinyPlan({
    tasks: [task("call", "a", { relay: true })],
    placements: [at("call", 2000)],
    stay: {
      relayPasses: passes.map(([startS, endS], i) => ({ id: `pass-${i}`, name: `pass ${i}`, startS, endS })),
    },
    rules: { tightS },
  });

export const relay: Pairs = [
  {
    breaks: ["begins a second before the pass", plan([[2001, 5000]])],
    says: { need: 0, have: -1 },
    holds: ["fills the pass to the second", plan([[2000, 2600]])],
  },
  {
    breaks: [
      "reaches from one pass into the next",
      plan([
        [1000, 2300],
        [2300, 4000],
      ]),
    ],
    holds: [
      "the second of two passes holds it",
      plan([
        [0, 1000],
        [1500, 4000],
      ]),
    ],
  },
];
