import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan, type EvaInput } from "../tinyPlan.ts";

/** One task at a from 2000: egress 2000 - 300 - 600 = 1100, ingress complete 2600 + 300 + 600 = 3500: 2400 s. */
export const plan = (bounds: Partial<EvaInput>, lengthS = 72_000, tightS = 0, startS = 2000) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"], ...bounds })],
    tasks: [task("one", "a")],
    placements: [at("one", startS)],
    stay: { lengthS },
    rules: { tightS },
  });

export const evaBounds: Pairs = [
  {
    breaks: ["out a second too early", plan({ earliestEgressS: 1101 })],
    says: { need: 1101, have: 1100 },
    holds: ["out at the earliest", plan({ earliestEgressS: 1100 })],
  },
  // Whatever the EVA allows: nobody is there before touchdown.
  {
    breaks: ["out a second before touchdown", plan({ earliestEgressS: -3600 }, 72_000, 0, 899)],
    says: { need: 0, have: -1 },
    holds: ["out at touchdown", plan({ earliestEgressS: -3600 }, 72_000, 300, 900)],
  },
  {
    breaks: ["in a second too late", plan({ latestIngressS: 3499 })],
    says: { need: 3499, have: 3500 },
    holds: ["in at the latest", plan({ latestIngressS: 3500 })],
  },
  {
    breaks: ["a second too long", plan({ longestS: 2399 })],
    says: { need: 2399, have: 2400 },
    holds: ["as long as it may be", plan({ longestS: 2400 })],
  },
  {
    breaks: ["in a second after liftoff", plan({}, 3499)],
    says: { need: 3499, have: 3500 },
    holds: ["in at liftoff", plan({}, 3500)],
  },
];
