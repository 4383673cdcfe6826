import { describe, expect, it } from "vitest";
import { duration } from "../../src/kernel/index.ts";
import { browserArchive } from "../../src/session/shelf/archive.ts";
import { longerEva } from "./answers.ts";
import { sessionWith, freshShelf, scheduleWith } from "./bench.ts";

/** A desk with a variant on it that needs EVA 1 five minutes longer. */
function sessionWithOffered(ports: Parameters<typeof sessionWith>[0] = {}) {
  const made = sessionWith(ports);
  const { plan } = made.session.state.getState();
  const way = longerEva(plan);
  const kept = made.session.keepOffered("Longer", way);
  if (!kept.ok) throw new Error("it was not kept");
  return { ...made, before: plan, way, id: kept.value };
}

describe("a variant", () => {
  it("keeps the schedule of the moment under a name and is undone like all else", () => {
    const { session } = sessionWith();
    const before = session.state.getState().plan;
    expect(session.keepVariant("Morning").ok).toBe(true);
    const { plan } = session.state.getState();
    expect(plan.variants).toMatchObject([{ name: "Morning", schedule: before.schedule }]);
    expect(plan.schedule).toBe(before.schedule);
    const id = plan.variants[0]!.id;
    expect(session.renameVariant(id, "Evening").ok).toBe(true);
    expect(session.variantDay(id)?.name).toBe("Evening");
    session.removeVariant(id);
    expect(session.variantDay(id)).toBeNull();
    expect(session.undo()).toBe("Remove variant Evening");
    expect(session.variantDay(id)?.name).toBe("Evening");
    expect(session.undo()).toBe("Rename variant to Evening");
    expect(session.undo()).toBe("Keep variant Morning");
    expect(session.state.getState().plan).toEqual(before);
  });

  it("needs a name", () => {
    const { session } = sessionWith();
    expect(session.keepVariant("  ").ok).toBe(false);
    expect(session.state.getState().plan.variants).toEqual([]);
  });

  it("of a relaxation leaves the open day alone and is judged on what it gives up", () => {
    const { session, before, way, id } = sessionWithOffered();
    const { plan } = session.state.getState();
    expect(plan.evas).toBe(before.evas);
    expect(plan.schedule).toBe(before.schedule);
    const day = session.variantDay(id)!;
    expect(day.plan.evas[0]!.longestS).toBe(25_300);
    expect(day.verdict.score).toEqual(way.score);
    expect(day.givesUp).toMatchObject({ sentence: way.sentence, owner: null });
    expect(day.isOpenDay).toBe(false);
    expect(session.variantDay(id)).toBe(day);
  });

  it("is adopted with what it gives up in one step, and taken back in one", () => {
    const { session, way, id } = sessionWithOffered();
    const { plan: kept, history } = session.state.getState();
    expect(session.adoptVariant(id)).toBe(true);
    const now = session.state.getState();
    expect(now.plan.schedule).toEqual(way.schedule);
    expect(now.plan.evas[0]!.longestS).toBe(25_300);
    expect(now.history.undo.length).toBe(history.undo.length + 1);
    expect(session.variantDay(id)?.isOpenDay).toBe(true);
    expect(session.undo()).toBe("Adopt variant Longer");
    expect(session.state.getState().plan).toEqual(kept);
    expect(session.redo()).toBe("Adopt variant Longer");
    expect(session.variantDay(id)?.isOpenDay).toBe(true);
  });

  it("is refused, with a word, when the plan has changed where it gives something up", () => {
    const { session, id } = sessionWithOffered();
    session.edit("Shorten", (plan) => ({
      evas: plan.evas.map((eva) => ({ ...eva, longestS: duration(20_000) })),
    }));
    const { plan } = session.state.getState();
    expect(session.variantDay(id)?.clashes).toHaveLength(1);
    expect(session.adoptVariant(id)).toBe(false);
    expect(session.state.getState().plan).toBe(plan);
    expect(session.state.getState().notices.at(-1)).toMatchObject({ tone: "problem" });
  });

  it("of another name or none is not adopted", () => {
    const { session } = sessionWith();
    expect(session.adoptVariant("variant-x")).toBe(false);
  });

  it("comes back after a reload with what it gives up", async () => {
    const shelf = freshShelf();
    const { session, id, way } = sessionWithOffered({ archive: browserArchive(shelf) });
    await session.saveNow();
    const again = sessionWith({ archive: browserArchive(shelf), newId: () => "later" }).session;
    expect(await again.restore()).toBe(true);
    expect(again.variantDay(id)?.givesUp?.sentence).toBe(way.sentence);
    expect(again.adoptVariant(id)).toBe(true);
    expect(again.state.getState().plan.evas[0]!.longestS).toBe(25_300);
  });

  it("comes back when it was removed and that is undone", () => {
    const { session, id } = sessionWithOffered();
    session.removeVariant(id);
    session.undo();
    expect(session.variantDay(id)?.givesUp?.patch).toHaveLength(1);
  });

  it("counts its changes from the open day", () => {
    const { session } = sessionWith();
    session.keepVariant("Now");
    const { plan } = session.state.getState();
    const id = plan.variants[0]!.id;
    session.reschedule("Move", scheduleWith(plan, "one", 9000));
    expect(session.variantDay(id)?.verdict.score.changes).toBe(1);
  });
});
