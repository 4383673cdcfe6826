import { describe, expect, it } from "vitest";
import type { CurveReport, PackProgress, WishedDay } from "../../src/answers/index.ts";
import type { Engine } from "../../src/engine/calls.ts";
import { instant } from "../../src/kernel/index.ts";
import { curveIsDue, isCurveCurrent } from "../../src/session/index.ts";
import { chanceOf } from "../../src/solver/simulate/chance.ts";
import { type Call, sessionWith, HandEngine, scheduleWith } from "./bench.ts";

const elsewhere = { eva: "eva-1", crew: ["ev2"], startS: instant(9000) };

/** A desk whose spare engine answers curves when the test likes. */
function stage() {
  const curves: (Call<CurveReport, PackProgress> & {
    readonly given: unknown;
    readonly isEnough: () => boolean;
  })[] = [];
  const spare = new HandEngine();
  const curve: Engine["curve"] = (plan, given, hearing) => {
    const list: Call<CurveReport, PackProgress>[] = [];
    const answer = spare.call(list, plan, hearing);
    curves.push({ ...list[0]!, given, isEnough: () => hearing?.enough?.aborted ?? false });
    return answer;
  };
  const made = sessionWith({ spare: () => Object.assign(spare, { curve }) });
  return { ...made, curves, now: () => made.session.state.getState() };
}

function report(days: readonly WishedDay[] = []): CurveReport {
  return { days, seconds: 1, iterations: 10, tried: 100 };
}

function dayOf(session: ReturnType<typeof stage>["session"], caution: number): WishedDay {
  const { plan, verdict } = session.state.getState();
  return {
    schedule: scheduleWith(plan, "two", 9000),
    caution,
    wish: { home: 0.99, must: 0.95 },
    outcome: { home: chanceOf(4000, 4000), must: chanceOf(3900, 4000), meanWorth: 19 },
    days: 4000,
    meets: true,
    verdict,
  };
}

describe("the curve", () => {
  it("is worked out in spare time, by an engine of its own, and stays while only the schedule changes", async () => {
    const { session, engine, curves, now } = stage();
    expect(curveIsDue(now())).toBe(true);
    void session.askCurve(10);
    expect(curves[0]!.given).toEqual({ seed: 1, seconds: 10 });
    expect(engine.packs).toHaveLength(0);
    curves[0]!.report({ seconds: 3 } as PackProgress);
    expect(now().curve).toMatchObject({ running: true, progress: { seconds: 3 } });
    await curves[0]!.answer(report());
    expect(now().curve).toMatchObject({ running: false, end: "answered" });
    session.place("two", elsewhere);
    expect(isCurveCurrent(now())).toBe(true);
    expect(curveIsDue(now())).toBe(false);
    session.edit("Worth", (plan) => ({ tasks: plan.tasks.map((task) => ({ ...task, worth: 20 })) }));
    expect(isCurveCurrent(now())).toBe(false);
    expect(curveIsDue(now())).toBe(true);
  });

  it("gives way as soon as the plan is changed or a task is taken in hand, and goes on when it rests", async () => {
    const { session, curves, now } = stage();
    void session.askCurve(10);
    session.place("two", elsewhere);
    expect(curves[0]!.cancelled()).toBe(true);
    expect(now().curve).toMatchObject({ running: false, end: "overtaken" });
    expect(curveIsDue(now())).toBe(true);
    void session.askCurve(10);
    session.begin("Move", ["one"]);
    expect(curves[1]!.cancelled()).toBe(true);
    expect(curveIsDue(now())).toBe(false);
    session.cancel();
    expect(curveIsDue(now())).toBe(true);
    void session.askCurve(10);
    session.stopCurve();
    await curves[2]!.answer(report());
    expect(curveIsDue(now())).toBe(false);
  });

  it("stopped, gives what was found until then, however often that is asked", async () => {
    const { session, curves, now } = stage();
    void session.askCurve(60);
    session.stopCurve();
    session.stopCurve();
    expect(curves[0]!.isEnough()).toBe(true);
    expect(curves[0]!.cancelled()).toBe(false);
    expect(now().curve).toMatchObject({ running: true, isStopped: true });
    const found = report([dayOf(session, 0.75)]);
    await curves[0]!.answer(found);
    expect(now().curve).toMatchObject({ running: false, end: "stopped", isStopped: true, report: found });
    expect(curveIsDue(now())).toBe(false);
    void session.askCurve(60);
    expect(now().curve).toMatchObject({ running: true, isStopped: false, report: found });
    session.stopCurve();
    session.place("two", elsewhere);
    expect(curves[1]!.cancelled()).toBe(true);
    expect(now().curve).toMatchObject({ running: false, end: "overtaken", isStopped: false, report: found });
  });

  it("gives a day to take, with the caution it was chosen for, as one step that leaves the curve as it is", async () => {
    const { session, curves, now } = stage();
    void session.askCurve(10);
    const day = dayOf(session, 0.75);
    await curves[0]!.answer(report([day]));
    session.takeCurveDay(day);
    expect(now().plan.schedule).toEqual(day.schedule);
    expect(now().plan.odds.crew.caution).toBe(0.75);
    expect(isCurveCurrent(now())).toBe(true);
    session.undo();
    expect(now().plan.odds.crew.caution).toBe(0.25);
    expect(now().plan.schedule.placements).toHaveLength(1);
  });

  it("gives a day to look at: a variant that brings its caution along", () => {
    const { session, now } = stage();
    const kept = session.keepCurveDay("Surer", dayOf(session, 0.75));
    expect(kept.ok).toBe(true);
    const day = session.variantDay(kept.ok ? kept.value : "");
    expect(day?.schedule).toEqual(scheduleWith(now().plan, "two", 9000));
    expect(day?.plan.odds.crew.caution).toBe(0.75);
    expect(day?.givesUp?.sentence).toBe("The crew’s caution is 75 %, not 25 %.");
    expect(now().plan.odds.crew.caution).toBe(0.25);
  });
});
