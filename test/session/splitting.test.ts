import { describe, expect, it } from "vitest";
import { instant } from "../../src/kernel/index.ts";
import { editBetween } from "../../src/plan/index.ts";
import { sessionWith } from "./bench.ts";

describe("splitting and merging on the desk", () => {
  it("are one named step each, with the parts or the one task selected, and undo brings the same plan back", () => {
    const { session } = sessionWith();
    const { plan } = session.state.getState();
    expect(session.splitTask("one", 300)).toBeNull();
    const split = session.state.getState();
    expect(split.selection).toEqual(["one", "one-2"]);
    expect(split.history.undo.at(-1)?.name).toBe("Split Task one");
    expect(split.plan.schedule.placements).toHaveLength(2);
    expect(split.verdict.score.worth).toBe(10);
    expect(session.undo()).toBe("Split Task one");
    expect(JSON.stringify(session.state.getState().plan)).toBe(JSON.stringify(plan));
    expect(session.state.getState().selection).toEqual(["one"]);
    session.redo();
    expect(session.mergeTasks("one-2", "one")).toBeNull();
    expect(session.state.getState().selection).toEqual(["one"]);
    expect(session.state.getState().history.undo.at(-1)?.name).toBe("Merge into Task one");
    expect(session.state.getState().plan).toEqual(plan);
  });

  it("leave the plan alone and say why where they cannot be", () => {
    const { session } = sessionWith();
    const { plan, history } = session.state.getState();
    expect(session.splitTask("one", 900)).toMatch(/both parts need some time/);
    expect(session.mergeTasks("two", "three")).toMatch(/bench/);
    session.place("two", { eva: "eva-1", crew: ["ev1"], startS: instant(9000) });
    expect(session.mergeTasks("two", "one")).toMatch(/does not begin right where Task one ends/);
    session.undo();
    expect(JSON.stringify(session.state.getState().plan)).toBe(JSON.stringify(plan));
    expect(session.state.getState().history.undo).toEqual(history.undo);
  });

  it("are refused while a variant gives up something of the task, which would hold for one part only", () => {
    const { session } = sessionWith();
    const { plan } = session.state.getState();
    const longer = {
      ...plan,
      tasks: plan.tasks.map((task) => ({ ...task, worth: task.id === "one" ? 99 : 10 })),
    };
    session.keepOffered("Dearer", {
      edit: editBetween("Dearer", plan, longer),
      schedule: plan.schedule,
      sentence: "Task one is worth more.",
      owner: null,
    });
    expect(session.hinderedSplit("one", 300)).toMatch(/^Variant Dearer gives up something of Task one/);
    expect(session.splitTask("one", 300)).toBe(session.hinderedSplit("one", 300));
    expect(session.state.getState().plan.tasks).toHaveLength(3);
    expect(session.hinderedSplit("two", 300)).toBeNull();
  });

  it("cut a name of full length, so that its parts have room for theirs", () => {
    const { session } = sessionWith();
    session.edit("Rename", (plan) => ({
      tasks: plan.tasks.map((task) => (task.id === "one" ? { ...task, name: "n".repeat(120) } : task)),
    }));
    expect(session.splitTask("one", 300)).toBeNull();
    const names = session.state.getState().plan.tasks.map((task) => task.name);
    expect(names.filter((name) => /^n+…, part [12]$/.test(name) && name.length === 120)).toHaveLength(2);
  });

  it("say what the plan cannot take: the notes of both are too long for one", () => {
    const { session } = sessionWith();
    session.splitTask("one", 300);
    const parts = session.state.getState().selection;
    session.edit("Write", (plan) => ({
      tasks: plan.tasks.map((task) =>
        parts.includes(task.id) ? { ...task, notes: "n".repeat(2500) } : task,
      ),
    }));
    expect(session.mergeTasks(parts[0]!, parts[1]!)).toMatch(/^The plan cannot take it: /);
    expect(session.state.getState().plan.tasks).toHaveLength(4);
  });
});
