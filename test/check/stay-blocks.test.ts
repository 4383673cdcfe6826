import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { breachesOf, only, pair } from "./pair.ts";
import { at, eva, task, tinyPlan } from "./tinyPlan.ts";

/** EV1 alone is out from 1100 to 3500 (see eva-bounds); somebody sleeps from `startS` to `endS`. */
const plan = (startS: number, endS: number, crew: string[] = [], tightS = 0) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("one", "a")],
    placements: [at("one", 2000)],
    stay: { blocks: [{ id: "night", name: "Sleep", kind: "sleep", crew, startS, endS }] },
    rules: { tightS },
  });

describe("sleep and meals", () => {
  pair("stay-blocks", {
    breaks: ["sleep begins a second before ingress is complete", plan(3499, 9000)],
    holds: ["sleep begins at ingress complete", plan(3500, 9000)],
  });
  pair("stay-blocks", {
    breaks: ["sleep ends a second after egress", plan(0, 1101)],
    holds: ["sleep ends at egress", plan(0, 1100)],
  });

  test("stay-blocks is about those who rest", () => {
    expect(breachesOf(plan(2000, 9000, ["ev2"]))).toEqual([]);
    expect(breachesOf(plan(2000, 9000, ["ev1"]))).toEqual(["stay-blocks"]);
  });

  test("stay-blocks is tight when a rest begins soon after ingress", () => {
    expect(only(plan(3600, 9000, [], 101), "stay-blocks")).toMatchObject({ level: "tight", have: 100 });
    expect(only(plan(3500, 9000, [], 101), "stay-blocks")).toMatchObject({ level: "tight", have: 0 });
    expect(check(plan(3600, 9000, [], 100)).findings).toEqual([]);
  });
});
