import type { FlightRule } from "./record.ts";

/** Flight rules on who does what, where and for how long. */
export const crewRules = {
  "task-crew": {
    words: "Crew of a task",
    sentence:
      "As many crew members as asked, all of the EVA's crew, the named ones among them, one with the qualification; a task with crew names an EVA, one without names none.",
    decides: null,
    eases: { by: "choice", most: 1 },
    causes: ["crew"],
    numbers: null,
    amounts: { count: "least" },
  },
  "one-at-a-time": {
    words: "One task at a time",
    sentence: "A crew member's tasks do not overlap, and there is time to walk from each to the next.",
    decides: "what people in suits can do",
    eases: null,
    causes: [],
    numbers: null,
    amounts: { s: "least" },
  },
  "no-way": {
    words: "Way on foot",
    sentence: "There is a way between all places a crew member goes through, and home.",
    decides: "what people in suits can do",
    eases: null,
    causes: [],
    numbers: null,
    amounts: {},
  },
  "blast-keep-out": {
    words: "Clear of the ascent blast",
    sentence:
      "An instrument's end place is at least so far from the lander. A deployment leaves one unless `instrument` is false; one that is switched off so and ends nearer is reported as tight, never as a breach.",
    decides: "the ascent vehicle's engineers",
    eases: null,
    causes: ["blast"],
    numbers: { group: "blast", keys: ["leastM"] },
    amounts: { m: "least" },
  },
  "hot-keep-out": {
    words: "Clear of heat",
    sentence:
      "Once the heat is there (`afterTask` placed and ended, or always without one) no task with a place or end place inside the shape is under way, but for `afterTask` itself and the exempt ones; and nobody, not even who has done one of those, stays inside it before leaving for the next.",
    decides: "the flight director",
    eases: null,
    causes: ["hot"],
    numbers: null,
    amounts: {},
  },
  "work-and-rest": {
    words: "Work and rest",
    sentence:
      "No stretch of work and walking (egress and ingress work included) is longer than the limit; only standing pauses (but for those before leaving) or `rest` effort of at least the rest time, one after the other taken together, end a stretch.",
    decides: "the crew surgeon",
    eases: null,
    causes: ["work"],
    numbers: { group: "work", keys: ["longestS", "restS"] },
    amounts: { s: "most" },
  },
} as const satisfies Readonly<Record<string, FlightRule>>;
