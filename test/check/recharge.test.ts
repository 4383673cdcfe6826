import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { breachesOf, only, pair } from "./pair.ts";
import { at, eva, task, tinyPlan } from "./tinyPlan.ts";

/** EV1 is in at 3500 and out again 900 s before 20 000, at 19 100: 15 600 s in between. */
const plan = (
  leastS: number,
  second: string[] = ["ev1"],
  level: "breach" | "warning" = "breach",
  tightS = 0,
) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: second })],
    tasks: [task("one", "a"), task("two", "a")],
    placements: [at("one", 2000), at("two", 20_000, second, "eva-2")],
    rules: { recharge: { leastS, level }, tightS },
  });

describe("recharge time", () => {
  pair("recharge", {
    breaks: ["15 600 s, a second more asked for", plan(15_601)],
    says: { need: 15_601, have: 15_600 },
    holds: ["15 600 s asked for", plan(15_600)],
  });

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
