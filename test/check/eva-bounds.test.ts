import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { breachesOf, only, pair } from "./pair.ts";
import { at, eva, task, tinyPlan, type EvaInput } from "./tinyPlan.ts";

/** One task at a from 2000: egress 2000 - 300 - 600 = 1100, ingress complete 2600 + 300 + 600 = 3500: 2400 s. */
const plan = (bounds: Partial<EvaInput>, lengthS = 72_000, tightS = 0, startS = 2000) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"], ...bounds })],
    tasks: [task("one", "a")],
    placements: [at("one", startS)],
    stay: { lengthS },
    rules: { tightS },
  });

describe("EVA times", () => {
  pair("eva-bounds", {
    breaks: ["out a second too early", plan({ earliestEgressS: 1101 })],
    says: { need: 1101, have: 1100 },
    holds: ["out at the earliest", plan({ earliestEgressS: 1100 })],
  });
  // Whatever the EVA allows: nobody is there before touchdown.
  pair("eva-bounds", {
    breaks: ["out a second before touchdown", plan({ earliestEgressS: -3600 }, 72_000, 0, 899)],
    says: { need: 0, have: -1 },
    holds: ["out at touchdown", plan({ earliestEgressS: -3600 }, 72_000, 300, 900)],
  });
  pair("eva-bounds", {
    breaks: ["in a second too late", plan({ latestIngressS: 3499 })],
    says: { need: 3499, have: 3500 },
    holds: ["in at the latest", plan({ latestIngressS: 3500 })],
  });
  pair("eva-bounds", {
    breaks: ["a second too long", plan({ longestS: 2399 })],
    says: { need: 2399, have: 2400 },
    holds: ["as long as it may be", plan({ longestS: 2400 })],
  });
  pair("eva-bounds", {
    breaks: ["in a second after liftoff", plan({}, 3499)],
    says: { need: 3499, have: 3500 },
    holds: ["in at liftoff", plan({}, 3500)],
  });

  test("eva-bounds: several bounds broken are one finding, led by the worst", () => {
    const worst = plan({ latestIngressS: 3000, longestS: 2300 });
    expect(breachesOf(worst)).toEqual(["eva-bounds"]);
    expect(only(worst, "eva-bounds")).toMatchObject({
      need: 3000,
      have: 3500,
      sentence: "eva-1 is in at 0:58:20 MET, the latest is 0:50 MET and lasts 40 min, the longest is 38 min.",
    });
  });

  test("eva-bounds: what is only close is not told beside what is broken", () => {
    // In 500 s late; 2400 s of 2401 s would be tight.
    const late = only(plan({ latestIngressS: 3000, longestS: 2401 }, 72_000, 300), "eva-bounds");
    expect(late.parts?.map(({ of }) => of)).toEqual(["latest ingress"]);
    // Two that are close are both told.
    const close = only(plan({ latestIngressS: 3600, longestS: 2401 }, 72_000, 300), "eva-bounds");
    expect([close.level, close.parts?.map(({ of }) => of)]).toEqual(["tight", ["latest ingress", "longest"]]);
  });

  test("eva-bounds is tight when less than the plan's time is to spare", () => {
    expect(only(plan({ latestIngressS: 3600 }, 72_000, 101), "eva-bounds").level).toBe("tight");
    expect(check(plan({ latestIngressS: 3600 }, 72_000, 100)).findings).toEqual([]);
  });
});
