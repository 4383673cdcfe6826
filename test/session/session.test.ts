import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { check, judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import type { Schedule } from "../../src/plan/index.ts";
import { isBenchCurrent, benchTasks, findingsOfTask, placementsByTask } from "../../src/session/index.ts";
import { placed } from "../../src/session/placing.ts";
import { sessionWith, scheduleWith, settled, smallInput } from "./bench.ts";

const spot = (startS: number, crew = ["ev1"]) => ({ eva: "eva-1", crew, startS: instant(startS) });

describe("the desk's verdict", () => {
  it("is always the judge's on the plan's schedule", () => {
    const { session } = sessionWith();
    const holds = (): void => {
      const { plan, verdict } = session.state.getState();
      expect(verdict).toEqual(check(plan));
    };
    holds();
    session.place("two", spot(7200));
    expect(session.state.getState().verdict.score.breaches).toBeGreaterThan(0);
    holds();
    session.undo();
    expect(session.state.getState().verdict.score.breaches).toBe(0);
    holds();
  });

  it("has listeners see plan and verdict change together", () => {
    const { session } = sessionWith();
    const seen: boolean[] = [];
    session.state.subscribe((now) => seen.push(now.verdict.placed === now.plan.schedule.placements.length));
    session.place("two", spot(9000));
    session.bench(["one"]);
    session.undo();
    expect(seen.length).toBeGreaterThanOrEqual(3);
    expect(seen.every(Boolean)).toBe(true);
  });
});

describe("edits", () => {
  it("are refused whole with every fault, the plan untouched", () => {
    const { session } = sessionWith();
    const before = session.state.getState();
    const answer = session.edit("Break", (plan) => ({
      crew: plan.crew.map((one) => ({ ...one, suit: "none", bodyMassKg: 5000 })),
    }));
    expect(answer.ok).toBe(false);
    if (!answer.ok) expect(answer.error.map((one) => one.path)).toContain("crew.0.bodyMassKg");
    expect(session.state.getState()).toBe(before);
  });

  it("are refused when they would leave something dangling", () => {
    const { session } = sessionWith();
    const answer = session.edit("Remove suit", () => ({ suits: [] }));
    expect(answer.ok).toBe(false);
    if (!answer.ok) expect(answer.error.map((one) => one.path)).toEqual(["crew.0.suit", "crew.1.suit"]);
  });

  it("leave all other branches the same objects", () => {
    const { session } = sessionWith();
    const before = session.state.getState().plan;
    session.edit("Rename", () => ({ title: "  Another day " }));
    const after = session.state.getState().plan;
    expect(after.title).toBe("Another day");
    expect(after.tasks).toBe(before.tasks);
    expect(after.site).toBe(before.site);
  });

  it("are taken back and done again, each one step by its name", () => {
    const { session } = sessionWith();
    session.edit("Rename", () => ({ title: "Another day" }));
    session.place("two", spot(9000));
    const last = session.state.getState().plan;
    expect(session.undo()).toBe("Place Task two");
    expect(session.undo()).toBe("Rename");
    expect(session.state.getState().plan.title).toBe("A small day");
    expect(session.redo()).toBe("Rename");
    expect(session.redo()).toBe("Place Task two");
    expect(session.redo()).toBeNull();
    expect(session.state.getState().plan).toEqual(last);
  });

  it("forget what was taken back once something else is done", () => {
    const { session } = sessionWith();
    session.place("two", spot(9000));
    session.undo();
    session.place("three", spot(9000));
    expect(session.redo()).toBeNull();
  });

  it("leave no mark when nothing changes", () => {
    const { session } = sessionWith();
    const { history } = session.state.getState();
    session.place("one", spot(7200));
    session.bench(["two"]);
    session.unpin(["one"]);
    session.pin(["two"]);
    expect(session.state.getState().history).toBe(history);
  });

  it("pin a task where it stands and let it go part by part", () => {
    const { session } = sessionWith();
    const pin = () => session.state.getState().plan.tasks[0]!.pin;
    session.pin(["one"]);
    expect(pin()).toEqual({ startS: 7200, eva: "eva-1", crew: ["ev1"] });
    session.unpin(["one"], ["eva", "crew"]);
    expect(pin()).toEqual({ startS: 7200 });
    session.unpin(["one"]);
    expect(session.state.getState().plan.tasks[0]).not.toHaveProperty("pin");
  });

  it("any chain of commands, all taken back, gives the plan of the begin", () => {
    const command = fc.oneof(
      fc.record({
        task: fc.constantFrom("one", "two", "three"),
        startS: fc.integer({ min: 4000, max: 9000 }),
      }),
      fc.constantFrom("bench", "pin", "rename"),
    );
    fc.assert(
      fc.property(fc.array(command, { maxLength: 12 }), (commands) => {
        const { session } = sessionWith();
        const { plan, history } = session.state.getState();
        for (const [index, one] of commands.entries()) {
          if (typeof one === "object") session.place(one.task, spot(one.startS));
          else if (one === "bench") session.bench(["one"]);
          else if (one === "pin") session.pin(["one", "two"]);
          else session.edit("Rename", () => ({ title: `Day ${index}` }));
        }
        while (session.state.getState().history.undo.length > history.undo.length) session.undo();
        expect(session.state.getState().plan).toEqual(plan);
      }),
      { numRuns: 40 },
    );
  });

  it("drop from the selection what is no longer in the plan", () => {
    const { session } = sessionWith();
    session.select(["one", "three"]);
    const { selection } = session.state.getState();
    session.edit("Rename", () => ({ title: "Same tasks" }));
    expect(session.state.getState().selection).toBe(selection);
    session.edit("Remove", (plan) => ({ tasks: plan.tasks.filter((task) => task.id !== "three") }));
    expect(session.state.getState().selection).toEqual(["one"]);
  });
});

describe("a gesture", () => {
  /** Task one moved by so much from where it is. */
  const by = (deltaS: number) => (from: Schedule) =>
    placed(from, "one", spot(from.placements.find((one) => one.task === "one")!.startS + deltaS));

  it("is made from its begin and the whole change each time, and is one step", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -3000, max: 9000 }), { minLength: 1 }), (deltas) => {
        const { session } = sessionWith();
        const { plan, history } = session.state.getState();
        session.begin("Move Task one", ["one"]);
        for (const delta of deltas) session.preview(by(delta));
        const last = deltas.at(-1)!;
        expect(session.state.getState().plan).toBe(plan);
        expect(session.state.getState().preview?.verdict).toEqual(judgeFor(plan)(by(last)(plan.schedule)));
        session.commit();
        const after = session.state.getState();
        expect(after.plan.schedule).toEqual(by(last)(plan.schedule));
        expect(after.history.undo.length - history.undo.length).toBe(last === 0 ? 0 : 1);
        expect(after.preview).toBeNull();
      }),
      { numRuns: 30 },
    );
  });

  it("says what it gains and costs against its begin", () => {
    const { session } = sessionWith();
    session.begin("Move Task one", ["one"]);
    session.preview(by(-3600));
    const { preview } = session.state.getState();
    expect(preview?.difference.gained.some((finding) => finding.level === "breach")).toBe(true);
    session.preview(by(0));
    expect(session.state.getState().preview?.difference.gained).toEqual([]);
  });

  it("leaves no trace when cancelled", () => {
    const { session } = sessionWith();
    const before = session.state.getState();
    session.begin("Move Task one", ["one"]);
    session.preview(by(900));
    session.cancel();
    expect(session.state.getState()).toEqual(before);
    expect(session.state.getState().plan).toBe(before.plan);
  });

  it("ends when the plan is changed beside it, and is never seen over the changed plan", () => {
    const { session } = sessionWith();
    const { plan } = session.state.getState();
    session.begin("Move Task one", ["one"]);
    session.preview(by(900));
    const seen: boolean[] = [];
    session.state.subscribe((now) => seen.push(now.preview !== null && now.plan !== plan));
    session.edit("Rename", () => ({ title: "Another day" }));
    expect(session.state.getState().preview).toBeNull();
    expect(seen).not.toContain(true);
    session.commit();
    expect(session.state.getState().plan.schedule).toBe(plan.schedule);
  });

  it("is cancelled by undo, which then takes back nothing else", () => {
    const { session } = sessionWith();
    session.place("two", spot(9000));
    const { plan } = session.state.getState();
    session.begin("Move Task one", ["one"]);
    session.preview(by(900));
    expect(session.undo()).toBeNull();
    expect(session.state.getState().preview).toBeNull();
    expect(session.state.getState().plan).toBe(plan);
  });

  it("asks for the held task's fit bands and shows them while it is held only", async () => {
    const { session, engine } = sessionWith();
    const bands = [{ eva: "eva-1", crew: ["ev1"], fixed: [], sliding: [] }];
    session.begin("Move Task one", ["one"]);
    expect(session.state.getState().fitBands).toBeNull();
    await engine.bands[0]!.answer(bands);
    expect(session.state.getState().fitBands).toBe(bands);
    session.cancel();
    expect(session.state.getState().fitBands).toBeNull();
  });

  it("does not take the bands of an earlier gesture that arrive late", async () => {
    const { session, engine } = sessionWith();
    engine.deaf = true;
    session.begin("Move Task one", ["one"]);
    session.cancel();
    expect(engine.bands[0]!.cancelled()).toBe(true);
    session.begin("Place Task two", ["two"]);
    await engine.bands[0]!.answer([]);
    expect(session.state.getState().fitBands).toBeNull();
    await engine.bands[1]!.answer([]);
    expect(session.state.getState().fitBands).toEqual([]);
  });

  it("goes on without bands when the engine fails", async () => {
    const { session, engine } = sessionWith();
    session.begin("Move Task one", ["one"]);
    await engine.bands[0]!.fail("no bands today");
    session.preview(by(900));
    session.commit();
    expect(session.state.getState().plan.schedule.placements[0]!.startS).toBe(8100);
  });
});

describe("bench reasons", () => {
  const reason = (task: string) => ({ task, sentence: `${task} is too long`, fitsAt: null, slides: false });

  it("are asked for once the plan stands still", async () => {
    const { session, engine, clock } = sessionWith();
    session.place("two", spot(9000));
    session.place("two", spot(9500));
    expect(engine.reasons).toHaveLength(0);
    clock.moveOn(1000);
    expect(engine.reasons).toHaveLength(1);
    await engine.reasons[0]!.answer([reason("three")]);
    expect(session.state.getState().benchReasons.get("three")?.sentence).toBe("three is too long");
  });

  it("put nothing on the line once the day is another one, until they are of that day", async () => {
    const { session, engine, clock } = sessionWith();
    const fits = { ...reason("three"), fitsAt: spot(9000) };
    clock.moveOn(1000);
    await engine.reasons[0]!.answer([fits]);
    session.select(["three"]);
    expect(isBenchCurrent(session.state.getState())).toBe(true);
    session.place("two", spot(9000));
    expect(isBenchCurrent(session.state.getState())).toBe(false);
    expect(session.commands.run("put on")).toBe(false);
    clock.moveOn(1000);
    await engine.reasons.at(-1)!.answer([fits]);
    expect(session.commands.run("put on")).toBe(true);
    expect(session.state.getState().plan.schedule.placements.map((one) => one.task)).toContain("three");
  });

  it("of an older plan are dropped", async () => {
    const { session, engine, clock } = sessionWith();
    engine.deaf = true;
    clock.moveOn(1000);
    session.place("two", spot(9000));
    await engine.reasons[0]!.answer([reason("two")]);
    expect(session.state.getState().benchReasons.size).toBe(0);
    expect(engine.reasons[0]!.cancelled()).toBe(true);
  });

  it("that cannot be had are said", async () => {
    const { session, engine, clock } = sessionWith();
    clock.moveOn(1000);
    await engine.reasons[0]!.fail("the worker fell over");
    expect(session.state.getState().notices.at(-1)?.text).toMatch(/worker fell over/);
  });
});

describe("variants", () => {
  it("are kept, adopted as one step, renamed and removed", () => {
    const { session } = sessionWith();
    const morning = session.state.getState().plan.schedule;
    expect(session.keepVariant("Morning").ok).toBe(true);
    const id = session.state.getState().plan.variants[0]!.id;
    session.place("two", spot(9000));
    expect(session.adoptVariant(id)).toBe(true);
    expect(session.state.getState().plan.schedule).toEqual(morning);
    session.undo();
    expect(session.state.getState().plan.schedule.placements).toHaveLength(2);
    session.renameVariant(id, "Early");
    expect(session.state.getState().plan.variants[0]!.name).toBe("Early");
    expect(session.renameVariant(id, " ").ok).toBe(false);
    session.removeVariant(id);
    expect(session.state.getState().plan.variants).toEqual([]);
    expect(session.adoptVariant(id)).toBe(false);
  });
});

describe("selectors", () => {
  it("give the same object until what they read changes", async () => {
    const { session } = sessionWith();
    const read = () => {
      const now = session.state.getState();
      return [benchTasks(now), placementsByTask(now), findingsOfTask(now, "one"), findingsOfTask(now, "two")];
    };
    const first = read();
    session.select(["two"]);
    await settled();
    read().forEach((one, index) => expect(one).toBe(first[index]));
    session.begin("Place Task two", ["two"]);
    session.preview(() => scheduleWith(session.state.getState().plan, "two", 9000));
    expect(benchTasks(session.state.getState()).map((task) => task.id)).toEqual(["three"]);
    session.cancel();
    expect(benchTasks(session.state.getState())).toBe(first[0]);
  });

  it("tell nobody of a selection that is the same", () => {
    const { session } = sessionWith();
    session.select(["one"]);
    const told = vi.fn();
    session.state.subscribe(told);
    session.select(["one"]);
    expect(told).not.toHaveBeenCalled();
  });
});

describe("files", () => {
  it("that are faulty are refused whole, every fault said, the open plan untouched", () => {
    const { session } = sessionWith();
    const { plan, history } = session.state.getState();
    const bad = {
      ...smallInput,
      tasks: [
        { ...smallInput.tasks[0]!, duration: { likelyS: -5 } },
        { ...smallInput.tasks[1]!, colour: "red" },
      ],
    };
    expect(session.open(JSON.stringify(bad), "bad.json")).toBe(false);
    const now = session.state.getState();
    expect(now.plan).toBe(plan);
    expect(now.history).toBe(history);
    expect(now.refusal?.name).toBe("bad.json");
    expect(now.refusal?.faults.map((fault) => fault.path)).toEqual([
      "tasks.0.duration.likelyS",
      "tasks.1.colour",
    ]);
    session.dismissRefusal();
    expect(session.state.getState().refusal).toBeNull();
  });

  it("that are no JSON, or name what is not there, are refused", () => {
    const { session } = sessionWith();
    const { plan } = session.state.getState();
    expect(session.open("{ not json", "x")).toBe(false);
    expect(session.state.getState().refusal?.faults[0]!.message).toMatch(/not JSON/);
    const dangling = { ...smallInput, evas: [] };
    expect(session.open(JSON.stringify(dangling), "x")).toBe(false);
    expect(
      session.state.getState().refusal?.faults.some((fault) => /no EVA "eva-1"/.test(fault.message)),
    ).toBe(true);
    expect(session.state.getState().plan).toBe(plan);
  });

  it("that are far too large are refused unread", async () => {
    const { session } = sessionWith();
    const text = vi.fn();
    expect(await session.openFile({ name: "huge.json", size: 500 * 1024 * 1024, text })).toBe(false);
    expect(text).not.toHaveBeenCalled();
    expect(session.state.getState().refusal?.faults[0]!.message).toMatch(/500 MB/);
  });

  it("of 50 MB are refused and the open plan stays", async () => {
    const { session } = sessionWith();
    const { plan } = session.state.getState();
    const size = 50 * 1024 * 1024;
    const file = { name: "big.json", size, text: () => Promise.resolve(" ".repeat(size)) };
    expect(await session.openFile(file)).toBe(false);
    expect(session.state.getState().refusal?.faults[0]!.message).toMatch(/50 MB/);
    expect(session.state.getState().plan).toBe(plan);
  });

  it("that cannot be read are said", async () => {
    const { session } = sessionWith();
    const text = () => Promise.reject(new Error("the disk is gone"));
    expect(await session.openFile({ name: "a.json", size: 10, text })).toBe(false);
    expect(session.state.getState().refusal?.faults[0]!.message).toMatch(/disk is gone/);
  });

  it("that are opened are plans of their own: the one that was open stays on the shelf, with its steps", async () => {
    const { session } = sessionWith();
    session.edit("Rename", () => ({ title: "Mine" }));
    const { slot } = session.state.getState();
    session.select(["one"]);
    expect(session.open(JSON.stringify({ ...smallInput, title: "Theirs" }))).toBe(true);
    expect(session.state.getState().plan.title).toBe("Theirs");
    expect(session.undo()).toBeNull();
    expect((await session.shelf()).map(({ title }) => title)).toEqual(["Mine", "Theirs"]);
    expect(await session.openSlot(slot)).toBe(true);
    expect(session.undo()).toBe("Rename");
  });

  it("come back from their own text as they were", () => {
    const { session } = sessionWith();
    const { plan } = session.state.getState();
    const text = session.saveText();
    session.newPlan();
    expect(session.state.getState().plan.tasks).toEqual([]);
    expect(session.open(text)).toBe(true);
    expect(session.state.getState().plan).toEqual(plan);
    expect(session.fileName()).toBe("a-small-day.json");
  });

  it("ready by name are fetched, and a failed fetch is said", async () => {
    const good = sessionWith();
    good.session.newPlan();
    expect(await good.session.openReady("small")).toBe(true);
    expect(good.session.state.getState().plan.title).toBe("A small day");
    const bad = sessionWith({ readyText: () => Promise.reject(new Error("404")) });
    const { plan } = bad.session.state.getState();
    expect(await bad.session.openReady("demo")).toBe(false);
    expect(bad.session.state.getState().refusal?.faults[0]!.message).toMatch(/404/);
    expect(bad.session.state.getState().plan).toBe(plan);
  });
});
