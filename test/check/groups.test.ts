import { describe, expect, test } from "vitest";
import { check, countedWorths } from "../../src/check/index.ts";
import { parse } from "../../src/plan/index.ts";
import { only, pair } from "./pair.ts";
import { at, task, tinyInput, tinyPlan } from "./tinyPlan.ts";

interface Wanted {
  readonly least?: number;
  readonly most?: number;
  readonly shares?: number[];
}

/** Three trenches of 50, 90 and 33 points in one group, the first `placed` of them done one after the other. */
const parts = (placed: number, group: Wanted) => ({
  tasks: [50, 90, 33].map((worth, i) => task(`t${i}`, "a", { worth })),
  placements: [0, 1, 2].slice(0, placed).map((i) => at(`t${i}`, 2000 + 1000 * i)),
  more: { groups: [{ id: "trenches", name: "Trenches", tasks: ["t0", "t1", "t2"], ...group }] },
});
const plan = (placed: number, group: Wanted) => tinyPlan(parts(placed, group));

describe("at most of a group", () => {
  pair("group-most", {
    breaks: ["three where two may be", plan(3, { most: 2 })],
    says: { need: 2, have: 3 },
    holds: ["two where two may be", plan(2, { most: 2 })],
  });

  test("none may be done of a group of which there may be 0", () => {
    expect(only(plan(1, { most: 0 }), "group-most")).toMatchObject({
      subjects: [{ kind: "group", id: "trenches" }],
      unit: "count",
      sentence: "Of Trenches at most 0 may be done; 1 is placed: t0.",
    });
  });
});

// Left open is not a breach, so this rule has its two cases without the common pair.
describe("at least of a group", () => {
  test("group-least breaks: one where three must be is open, and two must-do tasks too few", () => {
    const verdict = check(plan(1, { least: 3 }));
    expect(verdict.findings).toMatchObject([{ rule: "group-least", level: "open", need: 3, have: 1 }]);
    expect(verdict.findings[0]!.sentence).toBe(
      "Of Trenches at least 3 of 3 tasks must be done; 1 is placed.",
    );
    expect(verdict.score).toMatchObject({ breaches: 0, mustLeftOut: 2 });
    expect(verdict).toMatchObject({ mustPlaced: 1, mustTotal: 3 });
  });

  test("group-least just holds: two where two must be", () => {
    const verdict = check(plan(2, { least: 2 }));
    expect(verdict.findings).toEqual([]);
    expect(verdict).toMatchObject({ mustPlaced: 2, mustTotal: 2 });
  });
});

describe("what repeats count", () => {
  test("the most worth counts the first share, the next the second, all beyond the last, each rounded down", () => {
    // 90 whole, floor(50 * 0.5) = 25, floor(33 * 0.5) = 16; the order of starts and of the group is no matter.
    expect(check(plan(3, { shares: [100, 50] })).score.worth).toBe(131);
    // 90 of 100 %, 50 of 70 % = 35, 33 of 45 % = floor(14.85) = 14.
    expect(check(plan(3, { shares: [100, 70, 45] })).score.worth).toBe(139);
    // What is left out takes no share: of t0 alone 50.
    expect(check(plan(1, { shares: [100, 50] })).score.worth).toBe(50);
    expect(check(plan(3, {})).score.worth).toBe(173);
  });

  test("each task says its share", () => {
    const made = plan(3, { shares: [100, 50] });
    expect(
      countedWorths(made, made.schedule).map(({ task: { id }, share, counts }) => [id, share, counts]),
    ).toEqual([
      ["t0", 50, 25],
      ["t1", 100, 90],
      ["t2", 50, 16],
    ]);
  });
});

describe("groups that are not read", () => {
  const faults = (group: Wanted, more: object[] = []) => {
    const read = parse(
      tinyInput({
        ...parts(0, {}),
        more: {
          groups: [
            { id: "trenches", name: "Trenches", tasks: ["t0", "t1", "t2"], ...group },
            ...(more as []),
          ],
        },
      }),
    );
    return read.ok ? [] : read.error.map(({ path, message }) => `${path}: ${message}`);
  };

  test.each([
    [{ least: 4 }, "groups.0.least: asks for 4 of 3 tasks"],
    [{ least: 2, most: 1 }, "groups.0.least: the least (2) is above the most (1)"],
    [{ shares: [50, 60] }, "groups.0.shares.1: a later one counts no more than one before: 60 %"],
  ])("%j", (group, fault) => {
    expect(faults(group)).toEqual([fault]);
  });

  test("a task twice, one that is not there, and two groups that share one task", () => {
    expect(faults({}, [{ id: "g", name: "g", tasks: ["t0", "t0", "no"] }])).toEqual([
      "groups.1.tasks: names the same one twice",
      'groups.1.tasks.2: there is no task "no"',
    ]);
    expect(faults({ shares: [90] }, [{ id: "g", name: "g", tasks: ["t1"], shares: [80] }])).toEqual([
      'groups.1.tasks.0: what "t1" counts is said by the shares of "trenches" already',
    ]);
    expect(faults({ shares: [90] }, [{ id: "g", name: "g", tasks: ["t1"], most: 1 }])).toEqual([]);
  });
});
