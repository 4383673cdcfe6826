import { describe, expect, it } from "vitest";
import { type Command, keysOf, nameOf } from "../../src/session/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { sessionWith, scheduleWith } from "./bench.ts";

const key = (name: string, part: object = {}) =>
  keysOf({ key: name, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...part });

describe("the commands", () => {
  it("are found by the keys that lists show", () => {
    const { session } = sessionWith();
    expect(key("b")).toBe("B");
    expect(key("z", { metaKey: true, shiftKey: true })).toBe("Ctrl+Shift+Z");
    expect(key("?", { shiftKey: true })).toBe("?");
    expect(session.commands.forKeys("Ctrl+Shift+Z")?.id).toBe("redo");
    expect(session.commands.forKeys("Q")).toBeNull();
  });

  it("have one id and one key each", () => {
    const list = sessionWith().session.commands.list();
    const keys = list.flatMap((one) => one.keys);
    expect(new Set(list.map((one) => one.id)).size).toBe(list.length);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it("say why they cannot be done, and then do nothing", () => {
    const { session } = sessionWith();
    const { plan } = session.state.getState();
    expect(session.commands.find("bench")!.disabledReason()).toContain("Select a task");
    expect(session.commands.run("bench")).toBe(false);
    expect(session.commands.run("no such")).toBe(false);
    expect(session.state.getState().plan).toBe(plan);
  });

  it("that would change nothing say so: no one to hand over to, no crew to swap", () => {
    const { session } = sessionWith();
    const why = (id: string) => session.commands.find(id)!.disabledReason();
    session.place("two", { eva: "eva-1", crew: ["ev1"], startS: instant(9000) });
    session.place("three", { eva: "eva-1", crew: ["ev1", "ev2"], startS: instant(11_000) });
    session.select(["three"]);
    expect(why("hand over")).toContain("nobody else");
    session.select(["one", "two"]);
    expect(why("swap crew")).toContain("the same");
    session.select(["one", "three"]);
    expect(why("swap crew")).toContain("not as many");
    const before = session.state.getState().plan;
    expect(session.commands.run("swap crew")).toBe(false);
    expect(session.state.getState().plan).toBe(before);
    // The one with a single crew member can go to the other: something changes, so it is offered.
    expect(why("hand over")).toBeNull();
    session.place("two", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    session.select(["one", "two"]);
    expect(why("swap crew")).toBeNull();
  });

  it("of a screen stand in for the desk's while the screen is there", () => {
    const { session } = sessionWith();
    const other: Command = { ...session.commands.find("undo")!, name: "Back" };
    const stop = session.commands.add([other]);
    expect(nameOf(session.commands.find("undo")!)).toBe("Back");
    expect(session.commands.list().filter((one) => one.id === "undo")).toHaveLength(1);
    stop();
    expect(nameOf(session.commands.find("undo")!)).toContain("Undo");
  });

  it("work on what is selected, each as one named step", () => {
    const { session } = sessionWith();
    session.reschedule("Both", scheduleWith(session.state.getState().plan, "two", 9000, ["ev2"]));
    const spot = (task: string) =>
      session.state.getState().plan.schedule.placements.find((one) => one.task === task);
    const last = () => session.state.getState().history.undo.at(-1)?.name;
    session.select(["one", "two"]);
    session.commands.run("minute later");
    expect([spot("one")!.startS, spot("two")!.startS]).toEqual([7260, 9060]);
    expect(last()).toBe("Move 2 tasks");
    session.commands.run("swap crew");
    expect([spot("one")!.crew, spot("two")!.crew]).toEqual([["ev2"], ["ev1"]]);
    session.commands.run("hand over");
    expect([spot("one")!.crew, spot("two")!.crew]).toEqual([["ev1"], ["ev2"]]);
    session.commands.run("pin");
    expect(nameOf(session.commands.find("pin")!)).toBe("Unpin");
    expect(session.commands.run("minute earlier")).toBe(false);
    session.commands.run("pin");
    session.commands.run("bench");
    expect(spot("one")).toBeUndefined();
    expect(nameOf(session.commands.find("undo")!)).toBe("Undo: Bench 2 tasks");
    for (let step = 0; step < 6; step += 1) session.commands.run("undo");
    expect([spot("one")!.startS, spot("two")!.startS]).toEqual([7200, 9000]);
  });

  it("duplicate puts unpinned copies on the bench and selects them", () => {
    const { session } = sessionWith();
    session.pin(["one"]);
    session.select(["one"]);
    session.commands.run("duplicate");
    session.commands.run("duplicate");
    const { plan, selection } = session.state.getState();
    const copy = plan.tasks.find((task) => task.id === "one-2")!;
    expect(copy).toMatchObject({ name: "Task one (copy)" });
    // A number is a task's own: no copy takes that of the task it was made of.
    expect(new Set(plan.tasks.map((task) => task.number)).size).toBe(plan.tasks.length);
    expect(copy.pin).toBeUndefined();
    expect(selection).toEqual(["one-2-2"]);
    expect(plan.schedule.placements).toHaveLength(1);
  });
});

describe("a gesture that changes a duration", () => {
  it("is judged on the plan it would make, goes down as one step and is taken back whole", () => {
    const { session } = sessionWith();
    const { plan } = session.state.getState();
    const longer = (lengthS: number) => () => ({
      ...plan,
      tasks: plan.tasks.map((task) =>
        task.id === "one"
          ? { ...task, duration: { likelyS: lengthS as typeof task.duration.likelyS } }
          : task,
      ),
    });
    session.begin("Duration of Task one", ["one"]);
    session.previewPlan(longer(30_000));
    const { preview } = session.state.getState();
    expect(preview!.difference.gained.some((finding) => finding.level === "breach")).toBe(true);
    session.previewPlan(longer(1200));
    expect(session.state.getState().preview!.verdict.score.breaches).toBe(0);
    expect(session.state.getState().plan).toBe(plan);
    session.commit();
    expect(session.state.getState().plan.tasks[0]!.duration.likelyS).toBe(1200);
    expect(session.undo()).toBe("Duration of Task one");
    expect(JSON.stringify(session.state.getState().plan)).toBe(JSON.stringify(plan));
    expect(session.state.getState().plan.schedule.placements[0]!.startS).toBe(instant(7200));
  });
});
