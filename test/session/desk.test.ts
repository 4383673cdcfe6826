import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { check, judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import type { Schedule } from "../../src/plan/index.ts";
import {
  benchStands,
  benchTasks,
  findingsOfTask,
  placed,
  placementsByTask,
} from "../../src/session/index.ts";
import { deskWith, scheduleWith, settled, smallInput } from "./bench.ts";

const spot = (startS: number, crew = ["ev1"]) => ({ eva: "eva-1", crew, startS: instant(startS) });

describe("the desk's verdict", () => {
  it("is always the judge's on the plan's schedule", () => {
    const { desk } = deskWith();
    const holds = (): void => {
      const { plan, verdict } = desk.state.getState();
      expect(verdict).toEqual(check(plan));
    };
    holds();
    desk.place("two", spot(7200));
    expect(desk.state.getState().verdict.score.breaches).toBeGreaterThan(0);
    holds();
    desk.undo();
    expect(desk.state.getState().verdict.score.breaches).toBe(0);
    holds();
  });

  it("has listeners see plan and verdict change together", () => {
    const { desk } = deskWith();
    const seen: boolean[] = [];
    desk.state.subscribe((now) => seen.push(now.verdict.placed === now.plan.schedule.placements.length));
    desk.place("two", spot(9000));
    desk.bench(["one"]);
    desk.undo();
    expect(seen.length).toBeGreaterThanOrEqual(3);
    expect(seen.every(Boolean)).toBe(true);
  });
});

describe("edits", () => {
  it("are refused whole with every fault, the plan untouched", () => {
    const { desk } = deskWith();
    const before = desk.state.getState();
    const answer = desk.edit("Break", (plan) => ({
      crew: plan.crew.map((one) => ({ ...one, suit: "none", bodyMassKg: 5000 })),
    }));
    expect(answer.ok).toBe(false);
    if (!answer.ok) expect(answer.error.map((one) => one.path)).toContain("crew.0.bodyMassKg");
    expect(desk.state.getState()).toBe(before);
  });

  it("are refused when they would leave something dangling", () => {
    const { desk } = deskWith();
    const answer = desk.edit("Remove suit", () => ({ suits: [] }));
    expect(answer.ok).toBe(false);
    if (!answer.ok) expect(answer.error.map((one) => one.path)).toEqual(["crew.0.suit", "crew.1.suit"]);
  });

  it("leave all other branches the same objects", () => {
    const { desk } = deskWith();
    const before = desk.state.getState().plan;
    desk.edit("Rename", () => ({ title: "  Another day " }));
    const after = desk.state.getState().plan;
    expect(after.title).toBe("Another day");
    expect(after.tasks).toBe(before.tasks);
    expect(after.site).toBe(before.site);
  });

  it("are taken back and done again, each one step by its name", () => {
    const { desk } = deskWith();
    desk.edit("Rename", () => ({ title: "Another day" }));
    desk.place("two", spot(9000));
    const last = desk.state.getState().plan;
    expect(desk.undo()).toBe("Place Task two");
    expect(desk.undo()).toBe("Rename");
    expect(desk.state.getState().plan.title).toBe("A small day");
    expect(desk.redo()).toBe("Rename");
    expect(desk.redo()).toBe("Place Task two");
    expect(desk.redo()).toBeNull();
    expect(desk.state.getState().plan).toEqual(last);
  });

  it("forget what was taken back once something else is done", () => {
    const { desk } = deskWith();
    desk.place("two", spot(9000));
    desk.undo();
    desk.place("three", spot(9000));
    expect(desk.redo()).toBeNull();
  });

  it("leave no mark when nothing changes", () => {
    const { desk } = deskWith();
    const { history } = desk.state.getState();
    desk.place("one", spot(7200));
    desk.bench(["two"]);
    desk.unpin(["one"]);
    desk.pin(["two"]);
    expect(desk.state.getState().history).toBe(history);
  });

  it("pin a task where it stands and let it go part by part", () => {
    const { desk } = deskWith();
    const pin = () => desk.state.getState().plan.tasks[0]!.pin;
    desk.pin(["one"]);
    expect(pin()).toEqual({ startS: 7200, eva: "eva-1", crew: ["ev1"] });
    desk.unpin(["one"], ["eva", "crew"]);
    expect(pin()).toEqual({ startS: 7200 });
    desk.unpin(["one"]);
    expect(desk.state.getState().plan.tasks[0]).not.toHaveProperty("pin");
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
        const { desk } = deskWith();
        const { plan, history } = desk.state.getState();
        for (const [index, one] of commands.entries()) {
          if (typeof one === "object") desk.place(one.task, spot(one.startS));
          else if (one === "bench") desk.bench(["one"]);
          else if (one === "pin") desk.pin(["one", "two"]);
          else desk.edit("Rename", () => ({ title: `Day ${index}` }));
        }
        while (desk.state.getState().history.undo.length > history.undo.length) desk.undo();
        expect(desk.state.getState().plan).toEqual(plan);
      }),
      { numRuns: 40 },
    );
  });

  it("drop from the selection what is no longer in the plan", () => {
    const { desk } = deskWith();
    desk.select(["one", "three"]);
    const { selection } = desk.state.getState();
    desk.edit("Rename", () => ({ title: "Same tasks" }));
    expect(desk.state.getState().selection).toBe(selection);
    desk.edit("Remove", (plan) => ({ tasks: plan.tasks.filter((task) => task.id !== "three") }));
    expect(desk.state.getState().selection).toEqual(["one"]);
  });
});

describe("a gesture", () => {
  /** Task one moved by so much from where it is. */
  const by = (deltaS: number) => (from: Schedule) =>
    placed(from, "one", spot(from.placements.find((one) => one.task === "one")!.startS + deltaS));

  it("is made from its begin and the whole change each time, and is one step", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -3000, max: 9000 }), { minLength: 1 }), (deltas) => {
        const { desk } = deskWith();
        const { plan, history } = desk.state.getState();
        desk.begin("Move Task one", ["one"]);
        for (const delta of deltas) desk.preview(by(delta));
        const last = deltas.at(-1)!;
        expect(desk.state.getState().plan).toBe(plan);
        expect(desk.state.getState().preview?.verdict).toEqual(judgeFor(plan)(by(last)(plan.schedule)));
        desk.commit();
        const after = desk.state.getState();
        expect(after.plan.schedule).toEqual(by(last)(plan.schedule));
        expect(after.history.undo.length - history.undo.length).toBe(last === 0 ? 0 : 1);
        expect(after.preview).toBeNull();
      }),
      { numRuns: 30 },
    );
  });

  it("says what it gains and costs against its begin", () => {
    const { desk } = deskWith();
    desk.begin("Move Task one", ["one"]);
    desk.preview(by(-3600));
    const { preview } = desk.state.getState();
    expect(preview?.difference.gained.some((finding) => finding.level === "breach")).toBe(true);
    desk.preview(by(0));
    expect(desk.state.getState().preview?.difference.gained).toEqual([]);
  });

  it("leaves no trace when cancelled", () => {
    const { desk } = deskWith();
    const before = desk.state.getState();
    desk.begin("Move Task one", ["one"]);
    desk.preview(by(900));
    desk.cancel();
    expect(desk.state.getState()).toEqual(before);
    expect(desk.state.getState().plan).toBe(before.plan);
  });

  it("ends when the plan is changed beside it, and is never seen over the changed plan", () => {
    const { desk } = deskWith();
    const { plan } = desk.state.getState();
    desk.begin("Move Task one", ["one"]);
    desk.preview(by(900));
    const seen: boolean[] = [];
    desk.state.subscribe((now) => seen.push(now.preview !== null && now.plan !== plan));
    desk.edit("Rename", () => ({ title: "Another day" }));
    expect(desk.state.getState().preview).toBeNull();
    expect(seen).not.toContain(true);
    desk.commit();
    expect(desk.state.getState().plan.schedule).toBe(plan.schedule);
  });

  it("is cancelled by undo, which then takes back nothing else", () => {
    const { desk } = deskWith();
    desk.place("two", spot(9000));
    const { plan } = desk.state.getState();
    desk.begin("Move Task one", ["one"]);
    desk.preview(by(900));
    expect(desk.undo()).toBeNull();
    expect(desk.state.getState().preview).toBeNull();
    expect(desk.state.getState().plan).toBe(plan);
  });

  it("asks for the held task's fit bands and shows them while it is held only", async () => {
    const { desk, engine } = deskWith();
    const bands = [{ eva: "eva-1", crew: ["ev1"], fixed: [], sliding: [] }];
    desk.begin("Move Task one", ["one"]);
    expect(desk.state.getState().fitBands).toBeNull();
    await engine.bands[0]!.answer(bands);
    expect(desk.state.getState().fitBands).toBe(bands);
    desk.cancel();
    expect(desk.state.getState().fitBands).toBeNull();
  });

  it("does not take the bands of an earlier gesture that arrive late", async () => {
    const { desk, engine } = deskWith();
    engine.deaf = true;
    desk.begin("Move Task one", ["one"]);
    desk.cancel();
    expect(engine.bands[0]!.cancelled()).toBe(true);
    desk.begin("Place Task two", ["two"]);
    await engine.bands[0]!.answer([]);
    expect(desk.state.getState().fitBands).toBeNull();
    await engine.bands[1]!.answer([]);
    expect(desk.state.getState().fitBands).toEqual([]);
  });

  it("goes on without bands when the engine fails", async () => {
    const { desk, engine } = deskWith();
    desk.begin("Move Task one", ["one"]);
    await engine.bands[0]!.fail("no bands today");
    desk.preview(by(900));
    desk.commit();
    expect(desk.state.getState().plan.schedule.placements[0]!.startS).toBe(8100);
  });
});

describe("bench reasons", () => {
  const reason = (task: string) => ({ task, sentence: `${task} is too long`, fitsAt: null, slides: false });

  it("are asked for once the plan stands still", async () => {
    const { desk, engine, clock } = deskWith();
    desk.place("two", spot(9000));
    desk.place("two", spot(9500));
    expect(engine.reasons).toHaveLength(0);
    clock.moveOn(1000);
    expect(engine.reasons).toHaveLength(1);
    await engine.reasons[0]!.answer([reason("three")]);
    expect(desk.state.getState().benchReasons.get("three")?.sentence).toBe("three is too long");
  });

  it("put nothing on the line once the day is another one, until they are of that day", async () => {
    const { desk, engine, clock } = deskWith();
    const fits = { ...reason("three"), fitsAt: spot(9000) };
    clock.moveOn(1000);
    await engine.reasons[0]!.answer([fits]);
    desk.select(["three"]);
    expect(benchStands(desk.state.getState())).toBe(true);
    desk.place("two", spot(9000));
    expect(benchStands(desk.state.getState())).toBe(false);
    expect(desk.commands.run("put on")).toBe(false);
    clock.moveOn(1000);
    await engine.reasons.at(-1)!.answer([fits]);
    expect(desk.commands.run("put on")).toBe(true);
    expect(desk.state.getState().plan.schedule.placements.map((one) => one.task)).toContain("three");
  });

  it("of an older plan are dropped", async () => {
    const { desk, engine, clock } = deskWith();
    engine.deaf = true;
    clock.moveOn(1000);
    desk.place("two", spot(9000));
    await engine.reasons[0]!.answer([reason("two")]);
    expect(desk.state.getState().benchReasons.size).toBe(0);
    expect(engine.reasons[0]!.cancelled()).toBe(true);
  });

  it("that cannot be had are said", async () => {
    const { desk, engine, clock } = deskWith();
    clock.moveOn(1000);
    await engine.reasons[0]!.fail("the worker fell over");
    expect(desk.state.getState().notices.at(-1)?.text).toMatch(/worker fell over/);
  });
});

describe("variants", () => {
  it("are kept, adopted as one step, renamed and removed", () => {
    const { desk } = deskWith();
    const morning = desk.state.getState().plan.schedule;
    expect(desk.keepVariant("Morning").ok).toBe(true);
    const id = desk.state.getState().plan.variants[0]!.id;
    desk.place("two", spot(9000));
    expect(desk.adoptVariant(id)).toBe(true);
    expect(desk.state.getState().plan.schedule).toEqual(morning);
    desk.undo();
    expect(desk.state.getState().plan.schedule.placements).toHaveLength(2);
    desk.renameVariant(id, "Early");
    expect(desk.state.getState().plan.variants[0]!.name).toBe("Early");
    expect(desk.renameVariant(id, " ").ok).toBe(false);
    desk.removeVariant(id);
    expect(desk.state.getState().plan.variants).toEqual([]);
    expect(desk.adoptVariant(id)).toBe(false);
  });
});

describe("selectors", () => {
  it("give the same object until what they read changes", async () => {
    const { desk } = deskWith();
    const read = () => {
      const now = desk.state.getState();
      return [benchTasks(now), placementsByTask(now), findingsOfTask(now, "one"), findingsOfTask(now, "two")];
    };
    const first = read();
    desk.select(["two"]);
    await settled();
    read().forEach((one, index) => expect(one).toBe(first[index]));
    desk.begin("Place Task two", ["two"]);
    desk.preview(() => scheduleWith(desk.state.getState().plan, "two", 9000));
    expect(benchTasks(desk.state.getState()).map((task) => task.id)).toEqual(["three"]);
    desk.cancel();
    expect(benchTasks(desk.state.getState())).toBe(first[0]);
  });

  it("tell nobody of a selection that is the same", () => {
    const { desk } = deskWith();
    desk.select(["one"]);
    const told = vi.fn();
    desk.state.subscribe(told);
    desk.select(["one"]);
    expect(told).not.toHaveBeenCalled();
  });
});

describe("files", () => {
  it("that are faulty are refused whole, every fault said, the open plan untouched", () => {
    const { desk } = deskWith();
    const { plan, history } = desk.state.getState();
    const bad = {
      ...smallInput,
      tasks: [
        { ...smallInput.tasks[0]!, duration: { likelyS: -5 } },
        { ...smallInput.tasks[1]!, colour: "red" },
      ],
    };
    expect(desk.open(JSON.stringify(bad), "bad.json")).toBe(false);
    const now = desk.state.getState();
    expect(now.plan).toBe(plan);
    expect(now.history).toBe(history);
    expect(now.refusal?.name).toBe("bad.json");
    expect(now.refusal?.faults.map((fault) => fault.path)).toEqual([
      "tasks.0.duration.likelyS",
      "tasks.1.colour",
    ]);
    desk.dismissRefusal();
    expect(desk.state.getState().refusal).toBeNull();
  });

  it("that are no JSON, or name what is not there, are refused", () => {
    const { desk } = deskWith();
    const { plan } = desk.state.getState();
    expect(desk.open("{ not json", "x")).toBe(false);
    expect(desk.state.getState().refusal?.faults[0]!.message).toMatch(/not JSON/);
    const dangling = { ...smallInput, evas: [] };
    expect(desk.open(JSON.stringify(dangling), "x")).toBe(false);
    expect(desk.state.getState().refusal?.faults.some((fault) => /no EVA "eva-1"/.test(fault.message))).toBe(
      true,
    );
    expect(desk.state.getState().plan).toBe(plan);
  });

  it("that are far too large are refused unread", async () => {
    const { desk } = deskWith();
    const text = vi.fn();
    expect(await desk.openFile({ name: "huge.json", size: 500 * 1024 * 1024, text })).toBe(false);
    expect(text).not.toHaveBeenCalled();
    expect(desk.state.getState().refusal?.faults[0]!.message).toMatch(/500 MB/);
  });

  it("of 50 MB are refused and the open plan stays", async () => {
    const { desk } = deskWith();
    const { plan } = desk.state.getState();
    const size = 50 * 1024 * 1024;
    const file = { name: "big.json", size, text: () => Promise.resolve(" ".repeat(size)) };
    expect(await desk.openFile(file)).toBe(false);
    expect(desk.state.getState().refusal?.faults[0]!.message).toMatch(/50 MB/);
    expect(desk.state.getState().plan).toBe(plan);
  });

  it("that cannot be read are said", async () => {
    const { desk } = deskWith();
    const text = () => Promise.reject(new Error("the disk is gone"));
    expect(await desk.openFile({ name: "a.json", size: 10, text })).toBe(false);
    expect(desk.state.getState().refusal?.faults[0]!.message).toMatch(/disk is gone/);
  });

  it("that are opened are plans of their own: the one that was open stays on the shelf, with its steps", async () => {
    const { desk } = deskWith();
    desk.edit("Rename", () => ({ title: "Mine" }));
    const { slot } = desk.state.getState();
    desk.select(["one"]);
    expect(desk.open(JSON.stringify({ ...smallInput, title: "Theirs" }))).toBe(true);
    expect(desk.state.getState().plan.title).toBe("Theirs");
    expect(desk.undo()).toBeNull();
    expect((await desk.shelf()).map(({ title }) => title)).toEqual(["Mine", "Theirs"]);
    expect(await desk.openSlot(slot)).toBe(true);
    expect(desk.undo()).toBe("Rename");
  });

  it("come back from their own text as they were", () => {
    const { desk } = deskWith();
    const { plan } = desk.state.getState();
    const text = desk.saveText();
    desk.newPlan();
    expect(desk.state.getState().plan.tasks).toEqual([]);
    expect(desk.open(text)).toBe(true);
    expect(desk.state.getState().plan).toEqual(plan);
    expect(desk.fileName()).toBe("a-small-day.json");
  });

  it("ready by name are fetched, and a failed fetch is said", async () => {
    const good = deskWith();
    good.desk.newPlan();
    expect(await good.desk.openReady("small")).toBe(true);
    expect(good.desk.state.getState().plan.title).toBe("A small day");
    const bad = deskWith({ readyText: () => Promise.reject(new Error("404")) });
    const { plan } = bad.desk.state.getState();
    expect(await bad.desk.openReady("demo")).toBe(false);
    expect(bad.desk.state.getState().refusal?.faults[0]!.message).toMatch(/404/);
    expect(bad.desk.state.getState().plan).toBe(plan);
  });
});
