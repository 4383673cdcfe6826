import { describe, expect, test } from "vitest";
import { check, countedWorths } from "../../src/check/index.ts";
import { parse } from "../../src/plan/index.ts";
import { parts, plan, type Wanted } from "./cases/groups.ts";
import { only } from "./pair.ts";
import { tinyInput } from "./tinyPlan.ts";

describe("at most of a group", () => {
  test("none may be done of a group of which there may be 0", () => {
    expect(only(plan(1, { most: 0 }), "group-most")).toMatchObject({
      subjects: [{ kind: "group", id: "trenches" }],
      unit: "count",
      sentence: "Of Trenches at most 0 may be done; 1 is placed: t0.",
    });
  });
});

describe("at least of a group", () => {
  test("group-least: one where three must be is open, and two must-do tasks too few", () => {
    const verdict = check(plan(1, { least: 3 }));
    expect(verdict.findings).toMatchObject([{ rule: "group-least", level: "open", need: 3, have: 1 }]);
    expect(verdict.findings[0]!.sentence).toBe(
      "Of Trenches at least 3 of 3 tasks must be done; 1 is placed.",
    );
    expect(verdict.score).toMatchObject({ breaches: 0, mustLeftOut: 2 });
    expect(verdict).toMatchObject({ mustPlaced: 1, mustTotal: 3 });
  });

  test("group-least: two where two must be say nothing", () => {
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
