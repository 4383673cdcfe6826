import type { FlightRule } from "./record.ts";

/** Flight rules that the planner makes. */
export const plannerRules = {
  pin: {
    words: "Pinned",
    sentence:
      "A placed task keeps its pinned start, EVA and crew. A pinned task may still be left on the bench.",
    decides: null,
    eases: { by: "choice", most: 1 },
    causes: ["pin"],
    numbers: null,
    amounts: { s: "either" },
  },
  "group-most": {
    words: "At most of a group",
    sentence: "Of the tasks of a group at most `most` are placed.",
    decides: null,
    eases: { by: "unit", most: 3 },
    causes: ["group"],
    numbers: null,
    amounts: { count: "most" },
  },
  "group-least": {
    words: "At least of a group",
    sentence:
      "Of the tasks of a group at least `least` are placed; where fewer are it is `open`, not a breach.",
    decides: null,
    eases: null,
    causes: [],
    numbers: null,
    amounts: { count: "least" },
  },
  "must-do": {
    words: "Must be done",
    sentence: "Every must-do task is placed; one that is not is `open`, not a breach.",
    decides: null,
    eases: null,
    causes: [],
    numbers: null,
    amounts: {},
  },
} as const satisfies Readonly<Record<string, FlightRule>>;
