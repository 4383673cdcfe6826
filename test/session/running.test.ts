import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import {
  betterDay,
  nameOf,
  currentPack,
  scoreChange,
  shownSchedule,
  shownVerdict,
} from "../../src/session/index.ts";
import { sessionWith, packReport, scheduleWith, settled } from "./bench.ts";

const options = { seed: 1, seconds: 2 };
const progress = { seconds: 1, iterations: 5, worth: 20, placed: 2, mustPlaced: 0 };

describe("a pack", () => {
  it("reports the best so far, judged, and ends as one step", async () => {
    const { session, engine } = sessionWith();
    const { plan, history } = session.state.getState();
    const over = session.pack(options);
    expect(session.state.getState().run).toMatchObject({ kind: "pack", running: true, best: null });
    const better = scheduleWith(plan, "two", 9000);
    engine.packs[0]!.report({ ...progress, schedule: better });
    engine.packs[0]!.report({ ...progress, seconds: 1.5, schedule: null });
    expect(session.state.getState().run).toMatchObject({ best: better, progress: { seconds: 1.5 } });
    expect(session.state.getState().run?.bestVerdict).toEqual(check(plan, better));
    expect(session.state.getState().plan).toBe(plan);
    const last = scheduleWith({ ...plan, schedule: better }, "three", 11_000);
    await engine.packs[0]!.answer(packReport(plan, last));
    await over;
    const now = session.state.getState();
    expect(now.plan.schedule).toEqual(last);
    expect(now.run).toMatchObject({ running: false, end: "taken" });
    expect(now.history.undo.length).toBe(history.undo.length + 1);
    expect(session.undo()).toBe("Pack");
    expect(session.state.getState().plan).toEqual(plan);
  });

  it("shows each better day on the line, how it differs from the last, and the steps to it", async () => {
    const { session, engine } = sessionWith();
    const { plan, verdict } = session.state.getState();
    const over = session.pack(options);
    expect(shownSchedule(session.state.getState())).toBe(plan.schedule);
    const better = scheduleWith(plan, "two", 9000);
    engine.packs[0]!.report({ ...progress, schedule: better });
    expect(shownSchedule(session.state.getState())).toBe(better);
    expect(shownVerdict(session.state.getState())).toEqual(check(plan, better));
    // There is no last better day yet to differ from.
    expect(scoreChange(session.state.getState())).toBeNull();
    const best = scheduleWith({ ...plan, schedule: better }, "three", 11_000);
    engine.packs[0]!.report({ ...progress, seconds: 1.5, schedule: best });
    const worthOf = (schedule: typeof best): number => check(plan, schedule).score.worth;
    expect(scoreChange(session.state.getState())?.worth).toBe(worthOf(best) - worthOf(better));
    expect(session.state.getState().run?.steps.map(({ seconds, score }) => [seconds, score.worth])).toEqual([
      [1, worthOf(better)],
      [1.5, worthOf(best)],
    ]);
    // What is in hand stands before it, and when the run is over the plan's own day is shown again.
    session.begin("Move", ["one"]);
    expect(betterDay(session.state.getState())).toBeNull();
    session.cancel();
    session.stopPack();
    await over;
    expect(shownSchedule(session.state.getState())).toBe(plan.schedule);
    expect(shownVerdict(session.state.getState())).toBe(verdict);
  });

  it("that is stopped leaves the plan untouched", async () => {
    const { session, engine } = sessionWith();
    const { plan, history } = session.state.getState();
    const over = session.pack(options);
    engine.packs[0]!.report({ ...progress, schedule: scheduleWith(plan, "two", 9000) });
    session.stopPack();
    await over;
    expect(engine.packs[0]!.cancelled()).toBe(true);
    const now = session.state.getState();
    expect(now.plan).toBe(plan);
    expect(now.history).toBe(history);
    expect(now.run).toMatchObject({ running: false, end: "stopped" });
    expect(now.notices).toEqual([]);
  });

  it("that is stopped gives the best so far when it is asked for, as one step", async () => {
    const { session, engine } = sessionWith();
    const { plan } = session.state.getState();
    const over = session.pack(options);
    const better = scheduleWith(plan, "two", 9000);
    engine.packs[0]!.report({ ...progress, schedule: better });
    session.stopPack("take best");
    await over;
    expect(session.state.getState().plan.schedule).toEqual(better);
    expect(session.state.getState().run).toMatchObject({ running: false, end: "taken" });
    expect(session.undo()).toBe("Pack");
  });

  it("is overtaken by a change of the plan: its late answer is dropped", async () => {
    const { session, engine } = sessionWith();
    engine.deaf = true;
    const { plan } = session.state.getState();
    const over = session.pack(options);
    session.edit("Rename", () => ({ title: "Another" }));
    expect(session.state.getState().run).toMatchObject({ running: false, end: "overtaken" });
    expect(engine.packs[0]!.cancelled()).toBe(true);
    engine.packs[0]!.report({ ...progress, schedule: scheduleWith(plan, "two", 9000) });
    expect(session.state.getState().run?.best).toBeNull();
    await engine.packs[0]!.answer(packReport(plan, scheduleWith(plan, "two", 9000)));
    await over;
    expect(session.state.getState().plan.schedule).toEqual(plan.schedule);
  });

  it("gives way to the next one", async () => {
    const { session, engine } = sessionWith();
    const { plan } = session.state.getState();
    const first = session.pack(options);
    const second = session.pack(options);
    await first;
    expect(engine.packs[0]!.cancelled()).toBe(true);
    expect(session.state.getState().run?.running).toBe(true);
    await engine.packs[1]!.answer(packReport(plan, scheduleWith(plan, "two", 9000)));
    await second;
    expect(session.state.getState().plan.schedule.placements).toHaveLength(2);
  });

  it("that fails says so and leaves the plan untouched", async () => {
    const { session, engine } = sessionWith();
    const { plan } = session.state.getState();
    const over = session.pack(options);
    await engine.packs[0]!.fail("out of memory");
    await over;
    expect(session.state.getState().plan).toBe(plan);
    expect(session.state.getState().run).toMatchObject({ running: false, end: "failed" });
    expect(session.state.getState().notices.at(-1)).toMatchObject({ tone: "problem" });
    expect(session.state.getState().notices.at(-1)?.text).toMatch(/out of memory/);
  });

  it("that finds nothing better leaves no mark and says so", async () => {
    const { session, engine } = sessionWith();
    const { plan, history } = session.state.getState();
    const over = session.pack(options);
    await engine.packs[0]!.answer(packReport(plan, plan.schedule));
    await over;
    expect(session.state.getState().history).toBe(history);
    expect(session.state.getState().notices.at(-1)?.text).toMatch(/nothing better/);
  });

  it("stands while the day is the one that it made, also when a change is undone", async () => {
    const { session, engine } = sessionWith();
    const { plan } = session.state.getState();
    const over = session.pack(options);
    const report = { ...packReport(plan, scheduleWith(plan, "two", 9000)), bound: 20 };
    await engine.packs[0]!.answer(report);
    await over;
    const stands = () => currentPack(session.state.getState());
    expect(stands()).toBe(report);
    session.keepVariant("Packed");
    expect(stands()).toBe(report);
    session.bench(["two"]);
    expect(stands()).toBeNull();
    session.undo();
    expect(stands()).toBe(report);
    // Another request: the bound was proved without it.
    session.duplicate(["three"]);
    expect(stands()).toBeNull();
    session.undo();
    session.begin("Move", ["two"]);
    expect(stands()).toBeNull();
  });

  it("does nothing when stopped while none is running", () => {
    const { session } = sessionWith();
    const before = session.state.getState();
    session.stopPack("take best");
    expect(session.state.getState()).toBe(before);
  });
});

describe("a mend", () => {
  it("ends as one step and says each change", async () => {
    const { session, engine } = sessionWith();
    const { plan } = session.state.getState();
    const over = session.mend(options);
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
    expect(session.state.getState().plan.schedule).toEqual(schedule);
    expect(session.state.getState().run?.mended?.changes).toEqual(changes);
    expect(session.undo()).toBe("Mend");
  });
});

describe("starts put on the grid", () => {
  it("are one step, and what could not be is told", async () => {
    const { session, engine } = sessionWith();
    const { plan } = session.state.getState();
    const over = session.putOnGrid();
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
    expect(session.state.getState().plan.schedule).toEqual(schedule);
    expect(session.state.getState().notices.at(-1)).toMatchObject({ tone: "news", text: sentence });
    expect(session.undo()).toBe("Starts on the grid");
    expect(session.state.getState().plan).toEqual(plan);
  });

  it("come too late for a plan that has changed meanwhile, and a failure leaves the day as it is", async () => {
    const { session, engine } = sessionWith();
    const { plan } = session.state.getState();
    const over = session.putOnGrid();
    session.edit("Rename", () => ({ title: "Another" }));
    const schedule = scheduleWith(plan, "one", 9000);
    await engine.grids[0]!.answer({
      schedule,
      verdict: check(plan, schedule),
      moved: [],
      left: [],
      sentence: "",
    });
    await over;
    expect(session.state.getState().plan.schedule).toEqual(plan.schedule);
    const failing = session.putOnGrid();
    await engine.grids[1]!.fail("no core");
    await failing;
    expect(session.state.getState().plan.schedule).toEqual(plan.schedule);
    expect(session.state.getState().notices.at(-1)).toMatchObject({
      tone: "problem",
      text: "The starts stay: no core",
    });
  });

  it("are offered while a start that is not pinned is off the plan's grid", () => {
    const { session } = sessionWith();
    const command = session.commands.find("on grid")!;
    expect(nameOf(command)).toBe("Put starts on whole minutes");
    expect(command.disabledReason()).toBe("Every start but pinned ones is on whole minutes.");
    session.shift(["one"], 30);
    expect(command.disabledReason()).toBeNull();
    session.pin(["one"]);
    expect(command.disabledReason()).not.toBeNull();
    session.unpin(["one"]);
    session.edit("Finer", ({ rules }) => ({ rules: { ...rules, startGridS: 30 } }));
    expect(nameOf(command)).toBe("Put starts on whole multiples of 30 s");
    expect(command.disabledReason()).not.toBeNull();
  });

  it("stay there when tasks are moved by a key: a minute, or a step of a coarser grid", () => {
    const { session } = sessionWith();
    const startOf = (): number => session.state.getState().plan.schedule.placements[0]!.startS;
    const fromS = startOf();
    session.select(["one"]);
    const later = session.commands.find("minute later")!;
    expect(nameOf(later)).toBe("A minute later");
    later.run();
    expect(startOf()).toBe(fromS + 60);
    session.undo();
    session.edit("Coarser", ({ rules }) => ({ rules: { ...rules, startGridS: 300 } }));
    expect(nameOf(later)).toBe("5 minutes later");
    later.run();
    expect(startOf()).toBe(fromS + 300);
    session.commands.find("minute earlier")!.run();
    expect(startOf()).toBe(fromS);
    session.edit("Odd", ({ rules }) => ({ rules: { ...rules, startGridS: 25 } }));
    expect(nameOf(later)).toBe("75 seconds later");
  });
});
