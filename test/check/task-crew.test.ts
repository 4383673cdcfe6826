import { describe, expect, test } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { breachesOf, only, pair } from "./pair.ts";
import { at, eva, task, tinyPlan, type PlacementInput, type TaskInput } from "./tinyPlan.ts";

const crew = [
  { id: "ev1", name: "EV1", bodyMassKg: 80, suit: "suit", qualifications: ["drilling"] },
  { id: "ev2", name: "EV2", bodyMassKg: 70, suit: "suit" },
];

const plan = (asked: TaskInput["crew"], placement: PlacementInput, ev: string[] = ["ev1", "ev2"]) =>
  tinyPlan({
    crew,
    evas: [eva("eva-1", { crew: ev })],
    tasks: [task("one", asked?.count === 0 ? null : "a", { crew: asked })],
    placements: [placement],
  });

describe("crew of a task", () => {
  pair("task-crew", {
    breaks: ["two asked for, one there", plan({ count: 2 }, at("one", 2000))],
    says: { need: 2, have: 1 },
    holds: ["two asked for, two there", plan({ count: 2 }, at("one", 2000, ["ev1", "ev2"]))],
  });
  pair("task-crew", {
    breaks: ["one asked for, two there", plan({ count: 1 }, at("one", 2000, ["ev1", "ev2"]))],
    says: { need: 1, have: 2 },
    holds: ["one asked for, one there", plan({ count: 1 }, at("one", 2000))],
  });
  pair("task-crew", {
    breaks: ["somebody who is not on the EVA", plan({ count: 1 }, at("one", 2000, ["ev2"]), ["ev1"])],
    holds: ["somebody who is", plan({ count: 1 }, at("one", 2000), ["ev1"])],
  });
  pair("task-crew", {
    breaks: ["the named one is not there", plan({ named: ["ev2"] }, at("one", 2000, ["ev1"]))],
    holds: ["the named one is there", plan({ named: ["ev2"] }, at("one", 2000, ["ev2"]))],
  });
  pair("task-crew", {
    breaks: ["nobody there is qualified", plan({ qualification: "drilling" }, at("one", 2000, ["ev2"]))],
    holds: [
      "one of two is qualified",
      plan({ count: 2, qualification: "drilling" }, at("one", 2000, ["ev2", "ev1"])),
    ],
  });
  pair("task-crew", {
    breaks: ["crew at work on no EVA", plan({ count: 1 }, at("one", 2000, ["ev1"], null))],
    holds: ["crew at work on an EVA", plan({ count: 1 }, at("one", 2000))],
  });
  pair("task-crew", {
    breaks: ["remote work on an EVA", plan({ count: 0 }, at("one", 2000, []))],
    holds: ["remote work on none", plan({ count: 0 }, at("one", 2000, [], null))],
  });

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
