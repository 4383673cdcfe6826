import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/recharge.ts";
import { breachesOf, only } from "./pair.ts";
import { at, eva, task, tinyPlan } from "./tinyPlan.ts";

describe("recharge time", () => {
  test("recharge goes by the clock, not by the order in which the plan lists its EVAs", () => {
    const later = plan(15_601);
    const turned = { ...later, evas: [...later.evas].reverse() };
    expect(check(turned).findings).toEqual(check(later).findings);
  });

  test("recharge goes by the clock, not by how EVAs are called", () => {
    const called = (first: string, second: string) =>
      tinyPlan({
        evas: [eva(first, { crew: ["ev1"] }), eva(second, { crew: ["ev1"] })],
        tasks: [task("one", "a"), task("two", "a")],
        placements: [at("one", 2000, ["ev1"], first), at("two", 20_000, ["ev1"], second)],
        rules: { recharge: { leastS: 15_600 } },
      });
    expect(breachesOf(called("alpha", "zulu"))).toEqual([]);
    expect(breachesOf(called("zulu", "alpha"))).toEqual([]);
  });

  test("recharge is about the same crew member", () => {
    expect(breachesOf(plan(20_000, ["ev2"]))).toEqual([]);
  });

  test("recharge is tight when less than the plan's time is to spare, and says between when", () => {
    expect(only(plan(15_500, ["ev1"], "breach", 101), "recharge")).toMatchObject({
      level: "tight",
      span: { startS: 3500, endS: 19_100 },
    });
    expect(check(plan(15_500, ["ev1"], "breach", 100)).findings).toEqual([]);
  });

  test("recharge as a warning is tight", () => {
    expect(only(plan(20_000, ["ev1"], "warning"), "recharge").level).toBe("tight");
  });
});
