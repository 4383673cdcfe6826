import { describe, expect, it } from "vitest";
import { type Command, keysOf, nameOf } from "../../src/session/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { deskWith, scheduleWith } from "./bench.ts";

const key = (name: string, part: object = {}) =>
  keysOf({ key: name, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...part });

describe("the commands", () => {
  it("are found by the keys that lists show", () => {
    const { desk } = deskWith();
    expect(key("b")).toBe("B");
    expect(key("z", { metaKey: true, shiftKey: true })).toBe("Ctrl+Shift+Z");
    expect(key("?", { shiftKey: true })).toBe("?");
    expect(desk.commands.forKeys("Ctrl+Shift+Z")?.id).toBe("redo");
    expect(desk.commands.forKeys("Q")).toBeNull();
  });

  it("have one id and one key each", () => {
    const list = deskWith().desk.commands.list();
    const keys = list.flatMap((one) => one.keys);
    expect(new Set(list.map((one) => one.id)).size).toBe(list.length);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it("say why they cannot be done, and then do nothing", () => {
    const { desk } = deskWith();
    const { plan } = desk.state.getState();
    expect(desk.commands.find("bench")!.disabledReason()).toContain("Select a task");
    expect(desk.commands.run("bench")).toBe(false);
    expect(desk.commands.run("no such")).toBe(false);
    expect(desk.state.getState().plan).toBe(plan);
  });

  it("that would change nothing say so: no one to hand over to, no crew to swap", () => {
    const { desk } = deskWith();
    const why = (id: string) => desk.commands.find(id)!.disabledReason();
    desk.place("two", { eva: "eva-1", crew: ["ev1"], startS: instant(9000) });
    desk.place("three", { eva: "eva-1", crew: ["ev1", "ev2"], startS: instant(11_000) });
    desk.select(["three"]);
    expect(why("hand over")).toContain("nobody else");
    desk.select(["one", "two"]);
    expect(why("swap crew")).toContain("the same");
    desk.select(["one", "three"]);
    expect(why("swap crew")).toContain("not as many");
    const before = desk.state.getState().plan;
    expect(desk.commands.run("swap crew")).toBe(false);
    expect(desk.state.getState().plan).toBe(before);
    // The one with a single crew member can go to the other: something changes, so it is offered.
    expect(why("hand over")).toBeNull();
    desk.place("two", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    desk.select(["one", "two"]);
    expect(why("swap crew")).toBeNull();
  });

  it("of a screen stand in for the desk's while the screen is there", () => {
    const { desk } = deskWith();
    const other: Command = { ...desk.commands.find("undo")!, name: "Back" };
    const stop = desk.commands.add([other]);
    expect(nameOf(desk.commands.find("undo")!)).toBe("Back");
    expect(desk.commands.list().filter((one) => one.id === "undo")).toHaveLength(1);
    stop();
    expect(nameOf(desk.commands.find("undo")!)).toContain("Undo");
  });

  it("work on what is selected, each as one named step", () => {
    const { desk } = deskWith();
    desk.reschedule("Both", scheduleWith(desk.state.getState().plan, "two", 9000, ["ev2"]));
    const spot = (task: string) =>
      desk.state.getState().plan.schedule.placements.find((one) => one.task === task);
    const last = () => desk.state.getState().history.undo.at(-1)?.name;
    desk.select(["one", "two"]);
    desk.commands.run("minute later");
    expect([spot("one")!.startS, spot("two")!.startS]).toEqual([7260, 9060]);
    expect(last()).toBe("Move 2 tasks");
    desk.commands.run("swap crew");
    expect([spot("one")!.crew, spot("two")!.crew]).toEqual([["ev2"], ["ev1"]]);
    desk.commands.run("hand over");
    expect([spot("one")!.crew, spot("two")!.crew]).toEqual([["ev1"], ["ev2"]]);
    desk.commands.run("pin");
    expect(nameOf(desk.commands.find("pin")!)).toBe("Unpin");
    expect(desk.commands.run("minute earlier")).toBe(false);
    desk.commands.run("pin");
    desk.commands.run("bench");
    expect(spot("one")).toBeUndefined();
    expect(nameOf(desk.commands.find("undo")!)).toBe("Undo: Bench 2 tasks");
    for (let step = 0; step < 6; step += 1) desk.commands.run("undo");
    expect([spot("one")!.startS, spot("two")!.startS]).toEqual([7200, 9000]);
  });

  it("duplicate puts unpinned copies on the bench and selects them", () => {
    const { desk } = deskWith();
    desk.pin(["one"]);
    desk.select(["one"]);
    desk.commands.run("duplicate");
    desk.commands.run("duplicate");
    const { plan, selection } = desk.state.getState();
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
    const { desk } = deskWith();
    const { plan } = desk.state.getState();
    const longer = (lengthS: number) => () => ({
      ...plan,
      tasks: plan.tasks.map((task) =>
        task.id === "one"
          ? { ...task, duration: { likelyS: lengthS as typeof task.duration.likelyS } }
          : task,
      ),
    });
    desk.begin("Duration of Task one", ["one"]);
    desk.previewPlan(longer(30_000));
    const { preview } = desk.state.getState();
    expect(preview!.difference.gained.some((finding) => finding.level === "breach")).toBe(true);
    desk.previewPlan(longer(1200));
    expect(desk.state.getState().preview!.verdict.score.breaches).toBe(0);
    expect(desk.state.getState().plan).toBe(plan);
    desk.commit();
    expect(desk.state.getState().plan.tasks[0]!.duration.likelyS).toBe(1200);
    expect(desk.undo()).toBe("Duration of Task one");
    expect(JSON.stringify(desk.state.getState().plan)).toBe(JSON.stringify(plan));
    expect(desk.state.getState().plan.schedule.placements[0]!.startS).toBe(instant(7200));
  });
});
