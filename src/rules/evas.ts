import type { FlightRule } from "./record.ts";

/** Flight rules on EVAs, suits between them, and the stay. */
export const evaRules = {
  "eva-bounds": {
    words: "EVA times",
    sentence:
      "Egress not before, and not before touchdown; ingress complete not after, not longer; ingress complete before liftoff.",
    decides: null,
    eases: { by: "min", most: 120 },
    causes: ["egress", "ingress", "longest", "liftoff"],
    numbers: null,
    amounts: { s: "either" },
  },
  "stay-blocks": {
    words: "Sleep and meals",
    sentence: "No EVA overlaps a sleep or meal block of its crew.",
    decides: "the crew surgeon",
    eases: null,
    causes: ["block"],
    numbers: null,
    amounts: { s: "least" },
  },
  duty: {
    words: "EVA time in the stay",
    sentence: "EVA time of one crew member in the stay.",
    decides: "the crew surgeon",
    eases: null,
    causes: ["duty"],
    numbers: { group: "duty", keys: ["stayS"] },
    amounts: { s: "most" },
  },
  "suit-worn-once": {
    words: "One suit, one wearer",
    sentence:
      "Nobody wears a suit that somebody else wears: outings in one suit do not overlap, egress to ingress complete.",
    decides: null,
    eases: null,
    causes: ["suit"],
    numbers: null,
    amounts: {},
  },
  recharge: {
    words: "Recharge time",
    sentence:
      "From ingress complete to the next egress of the same crew member, and to the next one in the same suit.",
    decides: "the suit engineers",
    eases: null,
    causes: ["recharge"],
    numbers: { group: "recharge", keys: ["leastS"] },
    amounts: { s: "least" },
  },
  "lander-stores": {
    words: "Lander stores",
    sentence:
      "What recharges before later EVAs in the same suit draw (oxygen, water, energy as consumed on the earlier EVA, one absorbent change each) is in the stores; of each suit the last EVA is not counted.",
    decides: "the lander's engineers",
    eases: null,
    causes: ["stores"],
    numbers: null,
    amounts: { kg: "least", Wh: "least", count: "least" },
  },
} as const satisfies Readonly<Record<string, FlightRule>>;
