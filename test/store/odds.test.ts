import { describe, expect, it } from "vitest";
import { instant } from "../../src/kernel/index.ts";
import { oddsAreStale, PRESENT, shedIsStale } from "../../src/store/index.ts";
import { longerEva, oddsReport, shedReport } from "./answers.ts";
import { deskWith } from "./bench.ts";

const choice = { days: 100, seed: 7, shape: "pert" as const };
const elsewhere = { eva: "eva-1", crew: ["ev2"], startS: instant(9000) };

describe("odds", () => {
  it("are worked out for the open day, with progress, and stay until the day changes", async () => {
    const { desk, engine } = deskWith();
    const asked = desk.askOdds(PRESENT, choice);
    engine.oddses[0]!.report({ seconds: 0.1, days: 40, of: 100 });
    expect(desk.state.getState().odds.get(PRESENT)).toMatchObject({
      running: true,
      progress: { days: 40 },
    });
    await engine.oddses[0]!.answer(oddsReport());
    await asked;
    expect(desk.state.getState().odds.get(PRESENT)).toMatchObject({ running: false, end: "answered" });
    expect(oddsAreStale(desk.state.getState(), PRESENT)).toBe(false);
    desk.keepVariant("Now");
    expect(oddsAreStale(desk.state.getState(), PRESENT)).toBe(false);
    desk.place("two", elsewhere);
    expect(oddsAreStale(desk.state.getState(), PRESENT)).toBe(true);
    desk.undo();
    expect(oddsAreStale(desk.state.getState(), PRESENT)).toBe(false);
  });

  it("of a variant are those of its own plan and schedule", async () => {
    const { desk, engine } = deskWith();
    const { plan } = desk.state.getState();
    const way = longerEva(plan);
    const kept = desk.keepOffered("Longer", { ...way, plan });
    const id = kept.ok ? kept.value : "";
    const asked = desk.askOdds(id, choice);
    expect(engine.oddses[0]!.plan.evas[0]!.longestS).toBe(25_300);
    expect(engine.oddses[0]!.plan.schedule).toEqual(way.schedule);
    await engine.oddses[0]!.answer(oddsReport());
    await asked;
    expect(oddsAreStale(desk.state.getState(), id)).toBe(false);
    // The open schedule is not the variant's: changing it leaves the variant's odds as they are.
    desk.place("two", elsewhere);
    desk.renameVariant(id, "Other name");
    expect(oddsAreStale(desk.state.getState(), id)).toBe(false);
    desk.removeVariant(id);
    expect(oddsAreStale(desk.state.getState(), id)).toBe(true);
  });

  it("are stopped, overtaken by a change, and fail with a word", async () => {
    const { desk, engine } = deskWith();
    void desk.askOdds(PRESENT, choice);
    desk.stopOdds();
    expect(engine.oddses[0]!.cancelled()).toBe(true);
    expect(desk.state.getState().odds.get(PRESENT)).toMatchObject({ running: false, end: "stopped" });
    void desk.askOdds(PRESENT, choice);
    desk.place("two", elsewhere);
    expect(engine.oddses[1]!.cancelled()).toBe(true);
    expect(desk.state.getState().odds.get(PRESENT)).toMatchObject({ end: "overtaken" });
    const asked = desk.askOdds(PRESENT, choice);
    await engine.oddses[2]!.fail("too large");
    await asked;
    expect(desk.state.getState().odds.get(PRESENT)).toMatchObject({ end: "failed", message: "too large" });
  });

  it("of an unknown variant are not asked for", async () => {
    const { desk, engine } = deskWith();
    await desk.askOdds("variant-x", choice);
    expect(engine.oddses).toEqual([]);
    expect(desk.state.getState().odds.size).toBe(0);
  });
});

describe("the shed order", () => {
  it("is worked out with progress and is stale after a change", async () => {
    const { desk, engine } = deskWith();
    const asked = desk.askShed();
    engine.sheds[0]!.report({ seconds: 0.1, rows: 1, of: 3 });
    expect(desk.state.getState().shed).toMatchObject({ running: true, progress: { rows: 1 } });
    const report = shedReport();
    await engine.sheds[0]!.answer(report);
    await asked;
    expect(desk.state.getState().shed).toMatchObject({ running: false, end: "answered", report });
    expect(shedIsStale(desk.state.getState())).toBe(false);
    desk.place("two", elsewhere);
    expect(shedIsStale(desk.state.getState())).toBe(true);
  });

  it("is stopped, and overtaken by a change", () => {
    const { desk, engine } = deskWith();
    void desk.askShed();
    desk.stopShed();
    expect(engine.sheds[0]!.cancelled()).toBe(true);
    void desk.askShed();
    desk.place("two", elsewhere);
    expect(desk.state.getState().shed).toMatchObject({ running: false, end: "overtaken" });
  });
});
