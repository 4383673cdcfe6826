import type { FlightRule } from "./record.ts";

/** Flight rules that the planner makes. */
export const plannerRules = {
  pin: {
    words: "Pinned",
    sentence:
      "A placed task keeps its pinned start, EVA and crew. A pinned task may still be left on the bench.",
    decides: null,
    eases: { by: "choice", most: 1 },
    numbers: null,
    amounts: { s: "either" },
  },
  "must-do": {
    words: "Must be done",
    sentence: "Every must-do task is placed; one that is not is `open`, not a breach.",
    decides: null,
    eases: null,
    numbers: null,
    amounts: {},
  },
} satisfies Readonly<Record<string, FlightRule>>;
