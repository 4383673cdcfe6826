import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan } from "../tinyPlan.ts";

/**
 * EV1 and EV2 work 1000 s at the lander without airlock work on each of two EVAs, at 36 W: 10 Wh each. What the last
 * EVA draws is not recharged any more: 20 Wh and two absorbent changes.
 */
export const plan = (stores: { batteryWh?: number; absorbentChanges?: number; oxygenKg?: number }) =>
  tinyPlan({
    evas: ["eva-1", "eva-2"].map((id) => eva(id, { egressWorkS: 0, ingressWorkS: 0 })),
    tasks: ["one", "two"].map((id) =>
      task(id, "lander", { crew: { count: 2 }, duration: { likelyS: 1000 }, effort: { watts: 300 } }),
    ),
    placements: [at("one", 0, ["ev1", "ev2"]), at("two", 20_000, ["ev1", "ev2"], "eva-2")],
    suit: { electricalW: 36, leakKgH: 0 },
    more: { stores },
  });

/** As above, EV1 alone: 1000 s on the first EVA, 3000 s on the second one; `listed`: the plan's own order of the two. */
const unlike = (batteryWh: number, listed: [string, string] = ["eva-1", "eva-2"]) =>
  tinyPlan({
    evas: listed.map((id) => eva(id, { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })),
    tasks: ["one", "two"].map((id, k) =>
      task(id, "lander", { duration: { likelyS: k === 0 ? 1000 : 3000 } }),
    ),
    placements: [at("one", 0), at("two", 20_000, ["ev1"], "eva-2")],
    suit: { electricalW: 36, leakKgH: 0 },
    more: { stores: { batteryWh } },
  });

export const landerStores: Pairs = [
  {
    breaks: ["20 Wh drawn, 19.9 Wh held", plan({ batteryWh: 19.9 })],
    says: { need: 20, have: 19.9 },
    holds: ["20 Wh drawn, 20 Wh held", plan({ batteryWh: 20 })],
  },
  {
    breaks: ["two absorbent changes, one held", plan({ absorbentChanges: 1 })],
    says: { need: 2, have: 1 },
    holds: ["two absorbent changes, two held", plan({ absorbentChanges: 2 })],
  },
  // 300 W: 20 971 micrograms/s (see reserves), 1000 s, two crew members: 0.041942 kg.
  {
    breaks: ["a microgram of oxygen missing", plan({ oxygenKg: 0.041941999 })],
    says: { need: 0.041942, have: 0.041941999 },
    holds: ["just enough oxygen", plan({ oxygenKg: 0.041942 })],
  },
  // What the first EVA has drawn is recharged before the second: 10 Wh. The second's 30 Wh are not.
  {
    breaks: ["the earlier EVA's 10 Wh, 9.9 Wh held", unlike(9.9)],
    says: { need: 10, have: 9.9 },
    holds: ["the earlier EVA's 10 Wh held", unlike(10)],
  },
  {
    breaks: ["the EVA flown earlier, listed last", unlike(9.9, ["eva-2", "eva-1"])],
    says: { need: 10, have: 9.9 },
    holds: ["the same, just held", unlike(10, ["eva-2", "eva-1"])],
  },
];
