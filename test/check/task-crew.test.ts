import { describe, expect, test } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { plan } from "./cases/task-crew.ts";
import { breachesOf, only } from "./pair.ts";
import { at, task, tinyPlan } from "./tinyPlan.ts";

describe("crew of a task", () => {
  test("task-crew tells several faults in one finding", () => {
    const found = only(plan({ count: 2, named: ["ev2"] }, at("one", 2000, ["ev1"], null)), "task-crew");
    expect(found.sentence).toBe("one is on no EVA, needs 2 crew members and has 1 and asks for EV2 by name.");
  });

  test("task-crew reports placements that are none: an unknown task, one placed twice", () => {
    const judged = tinyPlan({ tasks: [task("one", "a")] });
    const read = (id: string, startS: number) => ({
      task: id,
      eva: "eva-1",
      crew: ["ev1"],
      startS: instant(startS),
    });
    const verdict = judgeFor(judged)({
      placements: [read("one", 9000), read("one", 2000), read("ghost", 0)],
    });
    expect(verdict.findings.map(({ rule, sentence }) => [rule, sentence])).toEqual([
      ["task-crew", "The schedule places ghost, which is no task of this plan."],
      ["task-crew", "one is placed more than once; the earliest counts."],
    ]);
    expect(verdict.placed).toBe(1);
    // The earlier one: 2000 - 300 - 600 = 1100.
    expect(verdict.outings[0]!.span.startS).toBe(1100);
  });

  test("task-crew: a task placed twice that has a fault of its own is still one finding", () => {
    const judged = tinyPlan({ tasks: [task("one", "a", { crew: { count: 2 } })] });
    const read = { task: "one", eva: "eva-1", crew: ["ev1"], startS: instant(2000) };
    const verdict = judgeFor(judged)({ placements: [read, { ...read, startS: instant(5000) }] });
    expect(verdict.findings.map(({ sentence }) => sentence)).toEqual([
      "one needs 2 crew members and has 1. one is placed more than once; the earliest counts.",
    ]);
  });

  test("task-crew: nobody goes out for a task that nobody does", () => {
    const nobody = plan({ count: 1 }, at("one", 2000, []));
    expect(breachesOf(nobody)).toEqual(["task-crew"]);
  });
});
