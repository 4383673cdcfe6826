import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import {
  betterDay,
  nameOf,
  packStands,
  scoreChange,
  shownSchedule,
  shownVerdict,
} from "../../src/session/index.ts";
import { deskWith, packReport, scheduleWith, settled } from "./bench.ts";

const options = { seed: 1, seconds: 2 };
const progress = { seconds: 1, iterations: 5, worth: 20, placed: 2, mustPlaced: 0 };

describe("a pack", () => {
  it("reports the best so far, judged, and ends as one step", async () => {
    const { desk, engine } = deskWith();
    const { plan, history } = desk.state.getState();
    const over = desk.pack(options);
    expect(desk.state.getState().run).toMatchObject({ kind: "pack", running: true, best: null });
    const better = scheduleWith(plan, "two", 9000);
    engine.packs[0]!.report({ ...progress, schedule: better });
    engine.packs[0]!.report({ ...progress, seconds: 1.5, schedule: null });
    expect(desk.state.getState().run).toMatchObject({ best: better, progress: { seconds: 1.5 } });
    expect(desk.state.getState().run?.bestVerdict).toEqual(check(plan, better));
    expect(desk.state.getState().plan).toBe(plan);
    const last = scheduleWith({ ...plan, schedule: better }, "three", 11_000);
    await engine.packs[0]!.answer(packReport(plan, last));
    await over;
    const now = desk.state.getState();
    expect(now.plan.schedule).toEqual(last);
    expect(now.run).toMatchObject({ running: false, end: "taken" });
    expect(now.history.undo.length).toBe(history.undo.length + 1);
    expect(desk.undo()).toBe("Pack");
    expect(desk.state.getState().plan).toEqual(plan);
  });

  it("shows each better day on the line, how it differs from the last, and the steps to it", async () => {
    const { desk, engine } = deskWith();
    const { plan, verdict } = desk.state.getState();
    const over = desk.pack(options);
    expect(shownSchedule(desk.state.getState())).toBe(plan.schedule);
    const better = scheduleWith(plan, "two", 9000);
    engine.packs[0]!.report({ ...progress, schedule: better });
    expect(shownSchedule(desk.state.getState())).toBe(better);
    expect(shownVerdict(desk.state.getState())).toEqual(check(plan, better));
    // There is no last better day yet to differ from.
    expect(scoreChange(desk.state.getState())).toBeNull();
    const best = scheduleWith({ ...plan, schedule: better }, "three", 11_000);
    engine.packs[0]!.report({ ...progress, seconds: 1.5, schedule: best });
    const worthOf = (schedule: typeof best): number => check(plan, schedule).score.worth;
    expect(scoreChange(desk.state.getState())?.worth).toBe(worthOf(best) - worthOf(better));
    expect(desk.state.getState().run?.steps.map(({ seconds, score }) => [seconds, score.worth])).toEqual([
      [1, worthOf(better)],
      [1.5, worthOf(best)],
    ]);
    // What is in hand stands before it, and when the run is over the plan's own day is shown again.
    desk.begin("Move", ["one"]);
    expect(betterDay(desk.state.getState())).toBeNull();
    desk.cancel();
    desk.stopPack();
    await over;
    expect(shownSchedule(desk.state.getState())).toBe(plan.schedule);
    expect(shownVerdict(desk.state.getState())).toBe(verdict);
  });

  it("that is stopped leaves the plan untouched", async () => {
    const { desk, engine } = deskWith();
    const { plan, history } = desk.state.getState();
    const over = desk.pack(options);
    engine.packs[0]!.report({ ...progress, schedule: scheduleWith(plan, "two", 9000) });
    desk.stopPack();
    await over;
    expect(engine.packs[0]!.cancelled()).toBe(true);
    const now = desk.state.getState();
    expect(now.plan).toBe(plan);
    expect(now.history).toBe(history);
    expect(now.run).toMatchObject({ running: false, end: "stopped" });
    expect(now.notices).toEqual([]);
  });

  it("that is stopped gives the best so far when it is asked for, as one step", async () => {
    const { desk, engine } = deskWith();
    const { plan } = desk.state.getState();
    const over = desk.pack(options);
    const better = scheduleWith(plan, "two", 9000);
    engine.packs[0]!.report({ ...progress, schedule: better });
    desk.stopPack("take best");
    await over;
    expect(desk.state.getState().plan.schedule).toEqual(better);
    expect(desk.state.getState().run).toMatchObject({ running: false, end: "taken" });
    expect(desk.undo()).toBe("Pack");
  });

  it("is overtaken by a change of the plan: its late answer is dropped", async () => {
    const { desk, engine } = deskWith();
    engine.deaf = true;
    const { plan } = desk.state.getState();
    const over = desk.pack(options);
    desk.edit("Rename", () => ({ title: "Another" }));
    expect(desk.state.getState().run).toMatchObject({ running: false, end: "overtaken" });
    expect(engine.packs[0]!.cancelled()).toBe(true);
    engine.packs[0]!.report({ ...progress, schedule: scheduleWith(plan, "two", 9000) });
    expect(desk.state.getState().run?.best).toBeNull();
    await engine.packs[0]!.answer(packReport(plan, scheduleWith(plan, "two", 9000)));
    await over;
    expect(desk.state.getState().plan.schedule).toEqual(plan.schedule);
  });

  it("gives way to the next one", async () => {
    const { desk, engine } = deskWith();
    const { plan } = desk.state.getState();
    const first = desk.pack(options);
    const second = desk.pack(options);
    await first;
    expect(engine.packs[0]!.cancelled()).toBe(true);
    expect(desk.state.getState().run?.running).toBe(true);
    await engine.packs[1]!.answer(packReport(plan, scheduleWith(plan, "two", 9000)));
    await second;
    expect(desk.state.getState().plan.schedule.placements).toHaveLength(2);
  });

  it("that fails says so and leaves the plan untouched", async () => {
    const { desk, engine } = deskWith();
    const { plan } = desk.state.getState();
    const over = desk.pack(options);
    await engine.packs[0]!.fail("out of memory");
    await over;
    expect(desk.state.getState().plan).toBe(plan);
    expect(desk.state.getState().run).toMatchObject({ running: false, end: "failed" });
    expect(desk.state.getState().notices.at(-1)).toMatchObject({ tone: "problem" });
    expect(desk.state.getState().notices.at(-1)?.text).toMatch(/out of memory/);
  });

  it("that finds nothing better leaves no mark and says so", async () => {
    const { desk, engine } = deskWith();
    const { plan, history } = desk.state.getState();
    const over = desk.pack(options);
    await engine.packs[0]!.answer(packReport(plan, plan.schedule));
    await over;
    expect(desk.state.getState().history).toBe(history);
    expect(desk.state.getState().notices.at(-1)?.text).toMatch(/nothing better/);
  });

  it("stands while the day is the one that it made, also when a change is undone", async () => {
    const { desk, engine } = deskWith();
    const { plan } = desk.state.getState();
    const over = desk.pack(options);
    const report = { ...packReport(plan, scheduleWith(plan, "two", 9000)), bound: 20 };
    await engine.packs[0]!.answer(report);
    await over;
    const stands = () => packStands(desk.state.getState());
    expect(stands()).toBe(report);
    desk.keepVariant("Packed");
    expect(stands()).toBe(report);
    desk.bench(["two"]);
    expect(stands()).toBeNull();
    desk.undo();
    expect(stands()).toBe(report);
    // Another request: the bound was proved without it.
    desk.duplicate(["three"]);
    expect(stands()).toBeNull();
    desk.undo();
    desk.begin("Move", ["two"]);
    expect(stands()).toBeNull();
  });

  it("does nothing when stopped while none is running", () => {
    const { desk } = deskWith();
    const before = desk.state.getState();
    desk.stopPack("take best");
    expect(desk.state.getState()).toBe(before);
  });
});

describe("a mend", () => {
  it("ends as one step and says each change", async () => {
    const { desk, engine } = deskWith();
    const { plan } = desk.state.getState();
    const over = desk.mend(options);
    const schedule = scheduleWith(plan, "one", 9000);
    const changes = [
      {
        task: "one",
        name: "Task one",
        must: false,
        worth: 10,
        kind: "moved" as const,
        sentence: "Task one starts 30 min later.",
      },
    ];
    await engine.mends[0]!.answer({ schedule, verdict: check(plan, schedule), changes });
    await over;
    await settled();
    expect(desk.state.getState().plan.schedule).toEqual(schedule);
    expect(desk.state.getState().run?.mended?.changes).toEqual(changes);
    expect(desk.undo()).toBe("Mend");
  });
});

describe("starts put on the grid", () => {
  it("are one step, and what could not be is told", async () => {
    const { desk, engine } = deskWith();
    const { plan } = desk.state.getState();
    const over = desk.putOnGrid();
    const schedule = scheduleWith(plan, "one", 9000);
    const sentence = "1 start moved so that starts are on whole minutes, by 30 s at most.";
    await engine.grids[0]!.answer({
      schedule,
      verdict: check(plan, schedule),
      moved: [],
      left: [],
      sentence,
    });
    await over;
    expect(desk.state.getState().plan.schedule).toEqual(schedule);
    expect(desk.state.getState().notices.at(-1)).toMatchObject({ tone: "news", text: sentence });
    expect(desk.undo()).toBe("Starts on the grid");
    expect(desk.state.getState().plan).toEqual(plan);
  });

  it("come too late for a plan that has changed meanwhile, and a failure leaves the day as it is", async () => {
    const { desk, engine } = deskWith();
    const { plan } = desk.state.getState();
    const over = desk.putOnGrid();
    desk.edit("Rename", () => ({ title: "Another" }));
    const schedule = scheduleWith(plan, "one", 9000);
    await engine.grids[0]!.answer({
      schedule,
      verdict: check(plan, schedule),
      moved: [],
      left: [],
      sentence: "",
    });
    await over;
    expect(desk.state.getState().plan.schedule).toEqual(plan.schedule);
    const failing = desk.putOnGrid();
    await engine.grids[1]!.fail("no core");
    await failing;
    expect(desk.state.getState().plan.schedule).toEqual(plan.schedule);
    expect(desk.state.getState().notices.at(-1)).toMatchObject({
      tone: "problem",
      text: "The starts stay: no core",
    });
  });

  it("are offered while a start that is not pinned is off the plan's grid", () => {
    const { desk } = deskWith();
    const command = desk.commands.find("on grid")!;
    expect(nameOf(command)).toBe("Put starts on whole minutes");
    expect(command.disabledReason()).toBe("Every start but pinned ones is on whole minutes.");
    desk.shift(["one"], 30);
    expect(command.disabledReason()).toBeNull();
    desk.pin(["one"]);
    expect(command.disabledReason()).not.toBeNull();
    desk.unpin(["one"]);
    desk.edit("Finer", ({ rules }) => ({ rules: { ...rules, startGridS: 30 } }));
    expect(nameOf(command)).toBe("Put starts on whole multiples of 30 s");
    expect(command.disabledReason()).not.toBeNull();
  });

  it("stay there when tasks are moved by a key: a minute, or a step of a coarser grid", () => {
    const { desk } = deskWith();
    const startOf = (): number => desk.state.getState().plan.schedule.placements[0]!.startS;
    const fromS = startOf();
    desk.select(["one"]);
    const later = desk.commands.find("minute later")!;
    expect(nameOf(later)).toBe("A minute later");
    later.run();
    expect(startOf()).toBe(fromS + 60);
    desk.undo();
    desk.edit("Coarser", ({ rules }) => ({ rules: { ...rules, startGridS: 300 } }));
    expect(nameOf(later)).toBe("5 minutes later");
    later.run();
    expect(startOf()).toBe(fromS + 300);
    desk.commands.find("minute earlier")!.run();
    expect(startOf()).toBe(fromS);
    desk.edit("Odd", ({ rules }) => ({ rules: { ...rules, startGridS: 25 } }));
    expect(nameOf(later)).toBe("75 seconds later");
  });
});
