import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { only, pair } from "./pair.ts";
import { at, task, tinyPlan } from "./tinyPlan.ts";

/** A relay task of 600 s at 2000. */
const plan = (passes: [number, number][], tightS = 0) =>
  tinyPlan({
    tasks: [task("call", "a", { relay: true })],
    placements: [at("call", 2000)],
    stay: {
      relayPasses: passes.map(([startS, endS], i) => ({ id: `pass-${i}`, name: `pass ${i}`, startS, endS })),
    },
    rules: { tightS },
  });

describe("relay passes", () => {
  pair("relay", {
    breaks: ["begins a second before the pass", plan([[2001, 5000]])],
    says: { need: 0, have: -1 },
    holds: ["fills the pass to the second", plan([[2000, 2600]])],
  });
  pair("relay", {
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
  });

  test("relay: a stay without passes", () => {
    expect(only(plan([]), "relay").sentence).toBe(
      "call runs 0:33:20 MET to 0:43:20 MET and needs the relay; the stay has no relay pass.",
    );
  });

  test("relay is tight when it may slip by less than the plan's time", () => {
    expect(only(plan([[1000, 2700]], 101), "relay").level).toBe("tight");
    expect(check(plan([[1000, 2700]], 100)).findings).toEqual([]);
  });
});
