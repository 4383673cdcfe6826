import type { FlightRule } from "./record.ts";

/** Flight rules on walking and carrying. */
export const walkingRules = {
  "walking-physics": {
    words: "Walking as people can",
    sentence:
      "Where anybody goes out, the planned and the walk-back speed on the level are at most 7.0 km/h, the fastest timed in a suit in 1/6 g; faster is a breach, never a warning. Above 5.5 km/h, the usual most, or a walk-back faster than planned, is tight. No leg that the planner gave is shorter than the straight line between its places, faster than that speed, or has a worst walk-back shorter than the straight line home from its farther end: walked on an outing that is a breach, walked by none it is tight. A task lasts at least the way from its place to its end place and what else is walked in it, at the planned speed: shorter is a breach; a short case that is shorter is tight.",
    decides: "what people in suits can do",
    eases: null,
    causes: ["walking-physics"],
    numbers: null,
    amounts: { "m/s": "most", m: "least", s: "least" },
  },
  "eva-distance": {
    words: "Distance walked in an EVA",
    sentence:
      "Distance walked by one crew member in one EVA, in the stay: ways, and inside a task `walkM` or the way to its end place, whichever is longer.",
    decides: "the flight director",
    eases: null,
    causes: ["eva-distance"],
    numbers: { group: "distance", keys: ["evaM"] },
    amounts: { m: "most" },
  },
  "stay-distance": {
    words: "Distance walked in the stay",
    sentence:
      "Distance walked by one crew member in one EVA, in the stay: ways, and inside a task `walkM` or the way to its end place, whichever is longer.",
    decides: "the flight director",
    eases: null,
    causes: ["stay-distance"],
    numbers: { group: "distance", keys: ["stayM"] },
    amounts: { m: "most" },
  },
  "crew-separation": {
    words: "Crew separation",
    sentence: "Crew members of one EVA are never farther apart in a straight line.",
    decides: "the flight director",
    eases: null,
    causes: ["separation"],
    numbers: { group: "separation", keys: ["greatestM"] },
    amounts: { m: "most" },
  },
  carry: {
    words: "Carried by hand",
    sentence:
      "What a task with crew carries out weighs at most the limit for each of the crew members it asks for.",
    decides: "the flight director",
    eases: null,
    causes: ["carry"],
    numbers: { group: "carry", keys: ["greatestN"] },
    amounts: { kg: "most" },
  },
  "return-mass": {
    words: "Return mass",
    sentence: "Samples and the empty mass of every container that holds one together.",
    decides: "the ascent vehicle's engineers",
    eases: null,
    causes: ["return-mass"],
    numbers: { group: "returnMass", keys: ["greatestKg"] },
    amounts: { kg: "most" },
  },
} as const satisfies Readonly<Record<string, FlightRule>>;
