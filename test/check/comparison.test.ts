import { describe, expect, test } from "vitest";
import { check, compareScores, judgeFor, type Score, subtract } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import type { Placement } from "../../src/plan/index.ts";
import { at, eva, task, tinyPlan } from "./tinyPlan.ts";

const plain: Score = {
  breaches: 1,
  mustLeftOut: 1,
  worth: 10,
  worstMargin: 500,
  changes: 3,
  walkM: 1000,
  finishS: 9000,
};

describe("scores", () => {
  test("are compared in the order of RULES.md: a better earlier number outweighs all later ones", () => {
    const better: Score[] = [
      { breaches: 0, mustLeftOut: 9, worth: 0, worstMargin: -9, changes: 9, walkM: 9999, finishS: 99_999 },
      { ...plain, mustLeftOut: 0, worth: 0, worstMargin: -9, changes: 9, walkM: 9999, finishS: 99_999 },
      { ...plain, worth: 11, worstMargin: -9, changes: 9, walkM: 9999, finishS: 99_999 },
      { ...plain, worstMargin: 501, changes: 9, walkM: 9999, finishS: 99_999 },
      { ...plain, changes: 2, walkM: 9999, finishS: 99_999 },
      { ...plain, walkM: 999, finishS: 99_999 },
      { ...plain, finishS: 8999 },
    ];
    for (const score of better) {
      expect(compareScores(score, plain)).toBeLessThan(0);
      expect(compareScores(plain, score)).toBeGreaterThan(0);
    }
    expect(compareScores(plain, { ...plain })).toBe(0);
  });

  test("count worth, changes, walking and finish", () => {
    const plan = tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"] })],
      tasks: [
        task("kept", "a", { worth: 5 }),
        task("moved", "a", { worth: 7 }),
        task("gone", "a", { worth: 100 }),
        task("new", "a", { worth: 11 }),
      ],
      placements: [at("kept", 2000), at("moved", 3000), at("gone", 4000)],
    });
    const place = (id: string, startS: number): Placement => ({
      task: id,
      eva: "eva-1",
      crew: ["ev1"],
      startS: instant(startS),
    });
    const schedule = { placements: [place("kept", 2000), place("moved", 3001), place("new", 5000)] };
    // 5 + 7 + 11; moved, gone and new differ; 300 m out and home; 5000 + 600 + 300 + 600.
    expect(judgeFor(plan)(schedule).score).toMatchObject({
      worth: 23,
      changes: 3,
      walkM: 600,
      finishS: 6500,
    });
  });

  test("of an empty schedule: nobody goes out", () => {
    const verdict = check(tinyPlan({ tasks: [task("one", "a", { worth: 5 })] }));
    expect(verdict.score).toEqual({
      breaches: 0,
      mustLeftOut: 0,
      worth: 0,
      worstMargin: 10_000,
      changes: 0,
      walkM: 0,
      finishS: 0,
    });
    expect(verdict.outings).toEqual([]);
    expect(verdict.walkedM).toEqual({ ev1: 0, ev2: 0 });
  });
});

describe("two verdicts subtract", () => {
  const judge = judgeFor(
    tinyPlan({
      tasks: [task("one", "a", { must: true, worth: 3 })],
      evas: [eva("eva-1", { latestIngressS: 5000 })],
    }),
  );
  const placed = (startS: number) =>
    judge({ placements: [{ task: "one", eva: "eva-1", crew: ["ev1"], startS: instant(startS) }] });

  test("into findings gained and lost, and numbers", () => {
    const change = subtract(judge({ placements: [] }), placed(9000));
    expect(change.gained.map(({ rule }) => rule)).toEqual(["eva-bounds"]);
    expect(change.lost.map(({ rule }) => rule)).toEqual(["must-do"]);
    const { score } = placed(9000);
    // An empty schedule has a margin of 10000 and one must-do task left out; all its other numbers are 0.
    expect(change.score).toEqual({
      ...score,
      mustLeftOut: -1,
      worstMargin: score.worstMargin - 10_000,
    });
    expect(score).toMatchObject({ breaches: 1, worth: 3, walkM: 600, changes: 1, finishS: 10_500 });
    expect(subtract(placed(9000), placed(9000)).score).toEqual({
      breaches: 0,
      mustLeftOut: 0,
      worth: 0,
      worstMargin: 0,
      changes: 0,
      walkM: 0,
      finishS: 0,
    });
  });

  test("into nothing when only the numbers of a finding move", () => {
    const change = subtract(placed(9000), placed(9500));
    expect([change.gained, change.lost]).toEqual([[], []]);
    expect(change.score.finishS).toBe(500);
  });
});
