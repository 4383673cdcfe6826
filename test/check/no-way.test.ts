import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { gate, plan } from "./cases/no-way.ts";
import { breachesOf } from "./pair.ts";

describe("ways", () => {
  test("no-way: a leg that takes no time is a way, whatever else is to be said of it", () => {
    expect(breachesOf(plan([{ ...gate, distanceM: 0, durationS: 0 }]))).toEqual(["walking-physics"]);
  });

  test("no-way: neither out nor home, still a verdict", () => {
    const verdict = check(plan([]));
    expect(verdict.findings.map(({ rule, sentence }) => [rule, sentence])).toEqual([
      ["no-way", "EV1 on eva-1: no way leads from lander to out."],
      ["no-way", "EV1 on eva-1: no way leads home from out."],
      ["no-way", "EV1 on eva-1: no way leads from out to lander."],
    ]);
    expect(verdict.walkbackS).toEqual({ work: null });
  });
});
