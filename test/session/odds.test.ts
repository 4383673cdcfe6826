import { describe, expect, it } from "vitest";
import { instant } from "../../src/kernel/index.ts";
import { oddsAreDue, oddsAreStale, PRESENT, lateTableIsStale } from "../../src/session/index.ts";
import { longerEva, oddsReport, lateReport } from "./answers.ts";
import { sessionWith } from "./bench.ts";

const choice = { days: 100, seed: 7, shape: "pert" as const };
const elsewhere = { eva: "eva-1", crew: ["ev2"], startS: instant(9000) };

describe("odds", () => {
  it("stand as soon as all days are played, grow by their parts, and stay as far as they are when stopped", () => {
    const { session, engine } = sessionWith();
    void session.askOdds(PRESENT, choice);
    const part = oddsReport({ pending: ["offers", "sensitivities"] });
    engine.oddses[0]!.report({ seconds: 0.1, days: 100, of: 100, report: part });
    expect(session.state.getState().odds.get(PRESENT)).toMatchObject({ running: true, report: part });
    expect(oddsAreStale(session.state.getState(), PRESENT)).toBe(false);
    session.stopOdds();
    expect(session.state.getState().odds.get(PRESENT)).toMatchObject({
      ...{ running: false, end: "stopped", report: part },
    });
  });

  it("are worked out for the open day, with progress, and stay until the day changes", async () => {
    const { session, engine } = sessionWith();
    const asked = session.askOdds(PRESENT, choice);
    engine.oddses[0]!.report({ seconds: 0.1, days: 40, of: 100, report: null });
    expect(session.state.getState().odds.get(PRESENT)).toMatchObject({
      running: true,
      progress: { days: 40 },
    });
    await engine.oddses[0]!.answer(oddsReport());
    await asked;
    expect(session.state.getState().odds.get(PRESENT)).toMatchObject({ running: false, end: "answered" });
    expect(oddsAreStale(session.state.getState(), PRESENT)).toBe(false);
    session.keepVariant("Now");
    expect(oddsAreStale(session.state.getState(), PRESENT)).toBe(false);
    session.place("two", elsewhere);
    expect(oddsAreStale(session.state.getState(), PRESENT)).toBe(true);
    session.undo();
    expect(oddsAreStale(session.state.getState(), PRESENT)).toBe(false);
  });

  it("of a variant are those of its own plan and schedule", async () => {
    const { session, engine } = sessionWith();
    const { plan } = session.state.getState();
    const way = longerEva(plan);
    const kept = session.keepOffered("Longer", way);
    const id = kept.ok ? kept.value : "";
    const asked = session.askOdds(id, choice);
    expect(engine.oddses[0]!.plan.evas[0]!.longestS).toBe(25_300);
    expect(engine.oddses[0]!.plan.schedule).toEqual(way.schedule);
    await engine.oddses[0]!.answer(oddsReport());
    await asked;
    expect(oddsAreStale(session.state.getState(), id)).toBe(false);
    // The open schedule is not the variant's: changing it leaves the variant's odds as they are.
    session.place("two", elsewhere);
    session.renameVariant(id, "Other name");
    expect(oddsAreStale(session.state.getState(), id)).toBe(false);
    session.removeVariant(id);
    expect(oddsAreStale(session.state.getState(), id)).toBe(true);
  });

  it("are stopped, overtaken by a change, and fail with a word", async () => {
    const { session, engine } = sessionWith();
    void session.askOdds(PRESENT, choice);
    session.stopOdds();
    expect(engine.oddses[0]!.cancelled()).toBe(true);
    expect(session.state.getState().odds.get(PRESENT)).toMatchObject({ running: false, end: "stopped" });
    void session.askOdds(PRESENT, choice);
    session.place("two", elsewhere);
    expect(engine.oddses[1]!.cancelled()).toBe(true);
    expect(session.state.getState().odds.get(PRESENT)).toMatchObject({ end: "overtaken" });
    const asked = session.askOdds(PRESENT, choice);
    await engine.oddses[2]!.fail("too large");
    await asked;
    expect(session.state.getState().odds.get(PRESENT)).toMatchObject({ end: "failed", message: "too large" });
  });

  it("of the day before stay, marked as such, until the new ones are there, also when those fail", async () => {
    const { session, engine } = sessionWith();
    const now = () => session.state.getState();
    const [older, newer] = [oddsReport({ seed: 1 }), oddsReport({ seed: 2 })];
    void session.askOdds(PRESENT, choice);
    await engine.oddses[0]!.answer(older);
    const before = now().plan;
    session.place("two", elsewhere);
    const asked = session.askOdds(PRESENT, choice);
    expect(now().odds.get(PRESENT)).toMatchObject({ running: true, report: older });
    expect(now().odds.get(PRESENT)!.reported!.plan).toBe(before);
    expect(oddsAreStale(now(), PRESENT)).toBe(true);
    await engine.oddses[1]!.fail("too large");
    await asked;
    expect(now().odds.get(PRESENT)).toMatchObject({ end: "failed", report: older });
    expect(oddsAreStale(now(), PRESENT)).toBe(true);
    void session.askOdds(PRESENT, choice);
    await engine.oddses[2]!.answer(newer);
    expect(now().odds.get(PRESENT)).toMatchObject({ end: "answered", report: newer });
    expect(oddsAreStale(now(), PRESENT)).toBe(false);
  });

  it("are due when they are missing or of another day, and never again of the same day", async () => {
    const { session, engine } = sessionWith();
    const due = (which = PRESENT): boolean => oddsAreDue(session.state.getState(), which);
    expect(due()).toBe(true);
    void session.askOdds(PRESENT, choice);
    expect(due()).toBe(false);
    await engine.oddses[0]!.fail("too large");
    expect(due()).toBe(false);
    session.place("two", elsewhere);
    expect(due()).toBe(true);
    void session.askOdds(PRESENT, choice);
    session.stopOdds();
    expect(due()).toBe(false);
    // Overtaken, and back at the day it was asked for: there is still no answer.
    void session.askOdds(PRESENT, choice);
    session.undo();
    session.redo();
    expect(due()).toBe(true);
    void session.askOdds(PRESENT, choice);
    await engine.oddses[3]!.answer(oddsReport());
    expect(due()).toBe(false);
    session.undo();
    expect(due()).toBe(true);
    const packing = session.pack({ seed: 1, seconds: 5 });
    expect(due()).toBe(false);
    session.stopPack("leave");
    await packing;
    expect(due()).toBe(true);
    session.bench(["one"]);
    expect(due()).toBe(false);
    expect(due("variant-x")).toBe(false);
  });

  it("of another day, asked for meanwhile, leave those under way due", async () => {
    const { session } = sessionWith();
    session.keepVariant("Now");
    const [kept] = session.state.getState().plan.variants;
    void session.askOdds(PRESENT, choice);
    void session.askOdds(kept!.id, choice);
    expect(oddsAreDue(session.state.getState(), PRESENT)).toBe(true);
  });

  it("of an unknown variant are not asked for", async () => {
    const { session, engine } = sessionWith();
    await session.askOdds("variant-x", choice);
    expect(engine.oddses).toEqual([]);
    expect(session.state.getState().odds.size).toBe(0);
  });
});

describe("the late table", () => {
  it("is worked out with progress and is stale after a change", async () => {
    const { session, engine } = sessionWith();
    const asked = session.askLateTable();
    const part = lateReport({ complete: false });
    engine.lateTables[0]!.report({ seconds: 0.1, rows: 1, of: 3, report: part });
    // What is there already is shown.
    expect(session.state.getState().lateTable).toMatchObject({
      running: true,
      progress: { rows: 1 },
      report: part,
    });
    const report = lateReport();
    await engine.lateTables[0]!.answer(report);
    await asked;
    expect(session.state.getState().lateTable).toMatchObject({ running: false, end: "answered", report });
    expect(lateTableIsStale(session.state.getState())).toBe(false);
    session.place("two", elsewhere);
    expect(lateTableIsStale(session.state.getState())).toBe(true);
    // And what was worked out to its end stays until the next one is.
    void session.askLateTable();
    const { lateTable } = session.state.getState();
    expect(lateTable).toMatchObject({ running: true, report: null, before: { report } });
    expect(lateTable?.before?.plan).not.toBe(lateTable?.plan);
    session.stopLateTable();
    void session.askLateTable();
    expect(session.state.getState().lateTable?.before?.report).toBe(report);
  });

  it("is stopped, and overtaken by a change", () => {
    const { session, engine } = sessionWith();
    void session.askLateTable();
    session.stopLateTable();
    expect(engine.lateTables[0]!.cancelled()).toBe(true);
    void session.askLateTable();
    session.place("two", elsewhere);
    expect(session.state.getState().lateTable).toMatchObject({ running: false, end: "overtaken" });
  });
});
