import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { at, task, tinyPlan } from "./tinyPlan.ts";

describe("how a schedule is read", () => {
  const plan = tinyPlan({
    tasks: [task("one", "a"), task("two", "b"), task("three", "c", { duration: { likelyS: 100 } })],
    placements: [at("one", 900), at("two", 2000), at("three", 1000, ["ev2"])],
  });
  const verdict = check(plan);
  const [first, second] = verdict.outings;

  test("S3 egress lets the earliest reach the first task in time, ingress waits for the last one home", () => {
    // EV1: 900 - 300 m / 1 m/s = 600; EV2: 1000 - 400 = 600. Earlier: 600. Less airlock work 600: egress 0.
    expect(first?.span.startS).toBe(0);
    // EV1: two ends 2600, 600 m home: 3200. EV2: 1100 + 400 = 1500. Later: 3200. Plus 600: 3800.
    expect(first?.span.endS).toBe(3800);
    expect(second?.span).toEqual(first?.span);
  });

  test("S4 leaves at once, waits at the task, walks home at once, waits at the lander", () => {
    expect(first?.stretches.map(({ kind, span }) => [kind, span.startS, span.endS])).toEqual([
      ["egress", 0, 600],
      ["traverse", 600, 900],
      ["task", 900, 1500],
      ["traverse", 1500, 1800],
      ["wait", 1800, 2000],
      ["task", 2000, 2600],
      ["traverse", 2600, 3200],
      ["ingress", 3200, 3800],
    ]);
    expect(second?.stretches.map(({ kind, span }) => [kind, span.startS, span.endS])).toEqual([
      ["egress", 0, 600],
      ["traverse", 600, 1000],
      ["task", 1000, 1100],
      ["traverse", 1100, 1500],
      ["wait", 1500, 3200],
      ["ingress", 3200, 3800],
    ]);
  });

  test("the sound plan has no findings and adds up", () => {
    expect(verdict.findings).toEqual([]);
    // 300 + 300 + 600 for EV1, 400 + 400 for EV2.
    expect(verdict.walkedM).toEqual({ ev1: 1200, ev2: 800 });
    expect(verdict.walkbackS).toEqual({ one: 300, two: 600, three: 400 });
    expect(verdict.score).toMatchObject({ breaches: 0, walkM: 2000, finishS: 3800, changes: 0 });
  });
});
