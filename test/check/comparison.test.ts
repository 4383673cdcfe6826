import { describe, expect, test } from "vitest";
import type { Score } from "../../src/answers/index.ts";
import {
  check,
  compareScores,
  easedWords,
  judgeFor,
  spareWords,
  subtract,
  worseWords,
} from "../../src/check/index.ts";
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

  test("into what is farther over and what is less so: kind and amount", () => {
    // In at 9000 + 600 + 300 + 600 = 10,500, 5500 s late; and 540 s later or earlier.
    const worse = subtract(placed(9000), placed(9540));
    expect([worse.gained, worse.lost, worse.eased]).toEqual([[], [], []]);
    expect(worse.worse).toMatchObject([{ finding: { rule: "eva-bounds" }, by: 540, unit: "s" }]);
    expect(worseWords(worse.worse[0]!)).toBe("worse by 9 min");
    const eased = subtract(placed(9540), placed(9000));
    expect([eased.gained, eased.lost, eased.worse]).toEqual([[], [], []]);
    expect(eased.eased).toMatchObject([{ by: 540, unit: "s" }]);
    expect(easedWords(eased.eased[0]!)).toBe("better by 9 min");
    // Rounded to the safe side, and nothing where nothing moves.
    expect(worseWords(subtract(placed(9000), placed(9541)).worse[0]!)).toBe("worse by 10 min");
    expect(easedWords(subtract(placed(9541), placed(9000)).eased[0]!)).toBe("better by 9 min");
    expect(subtract(placed(9000), placed(9000))).toMatchObject({ worse: [], eased: [] });
  });
});

describe("a finding that changes its level", () => {
  const judge = judgeFor(
    tinyPlan({
      tasks: [task("one", "a", { must: true })],
      evas: [eva("eva-1", { latestIngressS: 10_000 })],
      rules: { tightS: 300 },
    }),
  );
  // In 1500 s after the start: tight from 8200 on, broken from 8501 on.
  const placed = (startS: number) =>
    judge({ placements: [{ task: "one", eva: "eva-1", crew: ["ev1"], startS: instant(startS) }] });
  const FREE = 8000;
  const TIGHT = 8400;
  const BROKEN = 8600;

  test.each([
    ["nothing to tight", FREE, TIGHT, "gained"],
    ["nothing to breach", FREE, BROKEN, "gained"],
    ["tight to breach", TIGHT, BROKEN, "gained"],
    ["breach to tight", BROKEN, TIGHT, "eased"],
    ["tight to nothing", TIGHT, FREE, "lost"],
    ["breach to nothing", BROKEN, FREE, "lost"],
    ["tight to tighter", TIGHT, TIGHT + 50, "worse"],
    ["breach to farther over", BROKEN, BROKEN + 50, "worse"],
    ["tight to less tight", TIGHT, TIGHT - 50, "eased"],
    ["breach to less far over", BROKEN, BROKEN - 50, "eased"],
  ] as const)("from %s is one finding of one list", (_, before, after, list) => {
    const change = subtract(placed(before), placed(after));
    const counts = { gained: 0, lost: 0, worse: 0, eased: 0, [list]: 1 };
    expect({
      gained: change.gained.length,
      lost: change.lost.length,
      worse: change.worse.length,
      eased: change.eased.length,
    }).toEqual(counts);
  });

  test("from breach to tight is better by all that it has moved", () => {
    expect(subtract(placed(BROKEN), placed(TIGHT)).eased[0]).toMatchObject({
      by: 200,
      finding: { level: "tight" },
    });
  });

  test("from open to nothing is lost", () => {
    expect(subtract(judge({ placements: [] }), placed(FREE)).lost.map(({ rule }) => rule)).toEqual([
      "must-do",
    ]);
  });
});

describe("a finding about several bounds", () => {
  test("is worse by what has moved most, also where another bound is the worst", () => {
    const judge = judgeFor(
      tinyPlan({
        tasks: [task("one", "a"), task("two", "a")],
        evas: [eva("eva-1", { earliestEgressS: 3000, longestS: 3000 })],
      }),
    );
    const placed = (twoS: number) =>
      judge({
        placements: [
          { task: "one", eva: "eva-1", crew: ["ev1"], startS: instant(1000) },
          { task: "two", eva: "eva-1", crew: ["ev1"], startS: instant(twoS) },
        ],
      });
    // Egress at 100, 2900 s early all along; in at 4500 and 4800: 1400 and 1700 s too long.
    const change = subtract(placed(3000), placed(3300));
    expect(change.worse).toMatchObject([{ by: 300, unit: "s" }]);
    expect(change.gained).toEqual([]);
    // At 1600 it lasts 3000 s and only the egress is wrong: too long is new.
    expect(subtract(placed(1600), placed(3000)).worse).toMatchObject([{ by: 1400, unit: "s" }]);
    expect(subtract(placed(3000), placed(1600)).eased).toMatchObject([{ by: 1400, unit: "s" }]);
  });
});

test("a finding that is not broken any more for a reason that is no amount is lost and gained, not worse or eased", () => {
  const plan = tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("one", "a"), task("other", "a")],
    placements: [at("one", 2000), at("other", 2000)],
  });
  const before = check(plan);
  const broken = before.findings.find((one) => one.level === "breach")!;
  const eased = { ...broken, level: "tight" as const };
  const after = { ...before, findings: before.findings.map((one) => (one === broken ? eased : one)) };
  expect(subtract(before, after)).toMatchObject({ lost: [broken], gained: [eased], worse: [], eased: [] });
  // The other way round it is a breach gained, and nothing of it is lost.
  expect(subtract(after, before)).toMatchObject({ lost: [], gained: [broken], worse: [], eased: [] });
});

describe("what findings leave to spare", () => {
  // In 1500 s after the start; by 10,000.
  const found = (startS: number, longestS = 36_000) =>
    check(
      tinyPlan({
        tasks: [task("one", "a"), task("wanted", "a", { must: true })],
        placements: [at("one", startS)],
        evas: [eva("eva-1", { crew: ["ev1"], latestIngressS: 10_000, longestS })],
        rules: { tightS: 400 },
      }),
    ).findings;

  test("is the least of them, rounded down, or the most that one is over by, rounded up", () => {
    expect(spareWords(found(8201))).toEqual({ amount: "4 min", says: "spare" });
    expect(spareWords(found(8641))).toEqual({ amount: "3 min", says: "over" });
    expect(spareWords(found(8500))).toEqual({ amount: "0 min", says: "spare" });
  });

  test("is nothing where there is no quantity, and what is open is neither", () => {
    expect(spareWords([])).toBeNull();
    expect(spareWords(found(5000))).toBeNull();
    expect(spareWords(found(5000).filter(({ level }) => level !== "open"))).toBeNull();
  });
});
