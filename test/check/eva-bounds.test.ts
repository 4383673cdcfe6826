import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/eva-bounds.ts";
import { breachesOf, only } from "./pair.ts";

describe("EVA times", () => {
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
