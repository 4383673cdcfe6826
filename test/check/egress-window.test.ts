import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { AT_ONCE } from "../../src/check/departures.ts";
import { duration, instant } from "../../src/kernel/index.ts";
import { parse } from "../../src/plan/index.ts";
import { plan } from "./cases/egress-window.ts";
import { only } from "./pair.ts";
import { task, tinyInput } from "./tinyPlan.ts";

// First at 1900 s: egress at 1000 s. The second runs from 3000 s to 3600 s PET.
describe("windows from egress", () => {
  test("egress-window moves with a late egress", () => {
    const pet = { startS: 3000, endS: 3600 };
    expect(check(plan(1900, pet)).score.breaches).toBe(0);
    // Out 60 s later: the window is 60 s later too.
    expect(only(plan(1960, pet), "egress-window")).toMatchObject({ level: "breach", have: -60 });
    expect(only(plan(1960, pet), "egress-window").sentence).toBe(
      "second runs 0:49 PET to 0:59 PET, outside 0:50 PET to 1:00 PET by 1 min; egress at 0:17:40 MET.",
    );
  });

  test("egress-window counts from an earlier egress that is given", () => {
    const made = plan(1900, { startS: 3000, endS: 3600 });
    const early = { ...AT_ONCE, egressS: new Map([["eva-1", instant(940)]]) };
    expect(
      check(made, made.schedule, early).findings.filter(({ rule }) => rule === "egress-window"),
    ).toMatchObject([{ level: "breach", have: -60 }]);
  });

  test("egress-window is tight within the time margin, and never without an end", () => {
    expect(only(plan(1900, { endS: 3700 }, 101), "egress-window")).toMatchObject({
      level: "tight",
      have: 100,
    });
    expect(check(plan(1900, { endS: 3700 }, 100)).findings).toEqual([]);
    expect(check(plan(1900, { startS: 3000 }, 300)).findings).toEqual([]);
  });

  test("is not read without crew, nor where it ends before it begins", () => {
    const faults = (pet: object, place: string | null) => {
      const read = parse(tinyInput({ tasks: [task("one", place, { pet })] }));
      return read.ok ? [] : read.error.map(({ path, message }) => `${path}: ${message}`);
    };
    expect(faults({ startS: duration(60) }, null)).toEqual([
      "tasks.0.pet: a task without crew has no egress to count from",
    ]);
    expect(faults({ startS: 60, endS: 60 }, "a")).toEqual([
      "tasks.0.pet: the end (60 s) must be after the start (60 s)",
    ]);
  });
});
