import type { FlightRule } from "./record.ts";

/** Flight rules on links between tasks. */
export const linkRules = {
  "link-lag": {
    words: "Time between tasks",
    sentence: "Both placed: the lag between the named ends is at least `leastS` and at most `greatestS`.",
    decides: null,
    eases: { by: "min", most: 240 },
    causes: ["link"],
    numbers: null,
    amounts: { s: "either" },
  },
  "link-needs": {
    words: "Needs another task",
    sentence:
      "`from`: the second is placed only if the first is. `both`: neither is placed without the other.",
    decides: null,
    eases: { by: "choice", most: 1 },
    causes: ["link"],
    numbers: null,
    amounts: {},
  },
  "link-crew": {
    words: "Same or different crew",
    sentence: "Both placed: the same crew members, or none in common.",
    decides: null,
    eases: { by: "choice", most: 1 },
    causes: ["link"],
    numbers: null,
    amounts: {},
  },
  "link-eva": {
    words: "Same EVA",
    sentence: "Both placed, both with crew: on the same EVA.",
    decides: null,
    eases: { by: "choice", most: 1 },
    causes: ["link"],
    numbers: null,
    amounts: {},
  },
  "link-apart": {
    words: "Apart from each other",
    sentence: "Both placed: end places at least so far apart.",
    decides: null,
    eases: { by: "choice", most: 1 },
    causes: ["link"],
    numbers: null,
    amounts: { m: "least" },
  },
} as const satisfies Readonly<Record<string, FlightRule>>;
