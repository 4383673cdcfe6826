import { describe, expect, it } from "vitest";
import { instant } from "../../src/kernel/index.ts";
import { editBetween } from "../../src/plan/index.ts";
import { deskWith } from "./bench.ts";

describe("splitting and merging on the desk", () => {
  it("are one named step each, with the parts or the one task selected, and undo brings the same plan back", () => {
    const { desk } = deskWith();
    const { plan } = desk.state.getState();
    expect(desk.splitTask("one", 300)).toBeNull();
    const split = desk.state.getState();
    expect(split.selection).toEqual(["one", "one-2"]);
    expect(split.history.undo.at(-1)?.name).toBe("Split Task one");
    expect(split.plan.schedule.placements).toHaveLength(2);
    expect(split.verdict.score.worth).toBe(10);
    expect(desk.undo()).toBe("Split Task one");
    expect(JSON.stringify(desk.state.getState().plan)).toBe(JSON.stringify(plan));
    expect(desk.state.getState().selection).toEqual(["one"]);
    desk.redo();
    expect(desk.mergeTasks("one-2", "one")).toBeNull();
    expect(desk.state.getState().selection).toEqual(["one"]);
    expect(desk.state.getState().history.undo.at(-1)?.name).toBe("Merge into Task one");
    expect(desk.state.getState().plan).toEqual(plan);
  });

  it("leave the plan alone and say why where they cannot be", () => {
    const { desk } = deskWith();
    const { plan, history } = desk.state.getState();
    expect(desk.splitTask("one", 900)).toMatch(/both parts need some time/);
    expect(desk.mergeTasks("two", "three")).toMatch(/bench/);
    desk.place("two", { eva: "eva-1", crew: ["ev1"], startS: instant(9000) });
    expect(desk.mergeTasks("two", "one")).toMatch(/does not begin right where Task one ends/);
    desk.undo();
    expect(JSON.stringify(desk.state.getState().plan)).toBe(JSON.stringify(plan));
    expect(desk.state.getState().history.undo).toEqual(history.undo);
  });

  it("are refused while a variant gives up something of the task, which would hold for one part only", () => {
    const { desk } = deskWith();
    const { plan } = desk.state.getState();
    const longer = {
      ...plan,
      tasks: plan.tasks.map((task) => ({ ...task, worth: task.id === "one" ? 99 : 10 })),
    };
    desk.keepOffered("Dearer", {
      edit: editBetween("Dearer", plan, longer),
      schedule: plan.schedule,
      sentence: "Task one is worth more.",
      owner: null,
    });
    expect(desk.hinderedSplit("one", 300)).toMatch(/^Variant Dearer gives up something of Task one/);
    expect(desk.splitTask("one", 300)).toBe(desk.hinderedSplit("one", 300));
    expect(desk.state.getState().plan.tasks).toHaveLength(3);
    expect(desk.hinderedSplit("two", 300)).toBeNull();
  });

  it("cut a name of full length, so that its parts have room for theirs", () => {
    const { desk } = deskWith();
    desk.edit("Rename", (plan) => ({
      tasks: plan.tasks.map((task) => (task.id === "one" ? { ...task, name: "n".repeat(120) } : task)),
    }));
    expect(desk.splitTask("one", 300)).toBeNull();
    const names = desk.state.getState().plan.tasks.map((task) => task.name);
    expect(names.filter((name) => /^n+…, part [12]$/.test(name) && name.length === 120)).toHaveLength(2);
  });

  it("say what the plan cannot take: the notes of both are too long for one", () => {
    const { desk } = deskWith();
    desk.splitTask("one", 300);
    const parts = desk.state.getState().selection;
    desk.edit("Write", (plan) => ({
      tasks: plan.tasks.map((task) =>
        parts.includes(task.id) ? { ...task, notes: "n".repeat(2500) } : task,
      ),
    }));
    expect(desk.mergeTasks(parts[0]!, parts[1]!)).toMatch(/^The plan cannot take it: /);
    expect(desk.state.getState().plan.tasks).toHaveLength(4);
  });
});
