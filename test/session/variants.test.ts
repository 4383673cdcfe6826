import { describe, expect, it } from "vitest";
import { duration } from "../../src/kernel/index.ts";
import { browserArchive } from "../../src/session/index.ts";
import { longerEva } from "./answers.ts";
import { deskWith, freshShelf, scheduleWith } from "./bench.ts";

/** A desk with a variant on it that needs EVA 1 five minutes longer. */
function deskWithOffered(ports: Parameters<typeof deskWith>[0] = {}) {
  const made = deskWith(ports);
  const { plan } = made.desk.state.getState();
  const way = longerEva(plan);
  const kept = made.desk.keepOffered("Longer", way);
  if (!kept.ok) throw new Error("it was not kept");
  return { ...made, before: plan, way, id: kept.value };
}

describe("a variant", () => {
  it("keeps the schedule of the moment under a name and is undone like all else", () => {
    const { desk } = deskWith();
    const before = desk.state.getState().plan;
    expect(desk.keepVariant("Morning").ok).toBe(true);
    const { plan } = desk.state.getState();
    expect(plan.variants).toMatchObject([{ name: "Morning", schedule: before.schedule }]);
    expect(plan.schedule).toBe(before.schedule);
    const id = plan.variants[0]!.id;
    expect(desk.renameVariant(id, "Evening").ok).toBe(true);
    expect(desk.variantDay(id)?.name).toBe("Evening");
    desk.removeVariant(id);
    expect(desk.variantDay(id)).toBeNull();
    expect(desk.undo()).toBe("Remove variant Evening");
    expect(desk.variantDay(id)?.name).toBe("Evening");
    expect(desk.undo()).toBe("Rename variant to Evening");
    expect(desk.undo()).toBe("Keep variant Morning");
    expect(desk.state.getState().plan).toEqual(before);
  });

  it("needs a name", () => {
    const { desk } = deskWith();
    expect(desk.keepVariant("  ").ok).toBe(false);
    expect(desk.state.getState().plan.variants).toEqual([]);
  });

  it("of a relaxation leaves the open day alone and is judged on what it gives up", () => {
    const { desk, before, way, id } = deskWithOffered();
    const { plan } = desk.state.getState();
    expect(plan.evas).toBe(before.evas);
    expect(plan.schedule).toBe(before.schedule);
    const day = desk.variantDay(id)!;
    expect(day.plan.evas[0]!.longestS).toBe(25_300);
    expect(day.verdict.score).toEqual(way.score);
    expect(day.givesUp).toMatchObject({ sentence: way.sentence, owner: null });
    expect(day.stands).toBe(false);
    expect(desk.variantDay(id)).toBe(day);
  });

  it("is adopted with what it gives up in one step, and taken back in one", () => {
    const { desk, way, id } = deskWithOffered();
    const { plan: kept, history } = desk.state.getState();
    expect(desk.adoptVariant(id)).toBe(true);
    const now = desk.state.getState();
    expect(now.plan.schedule).toEqual(way.schedule);
    expect(now.plan.evas[0]!.longestS).toBe(25_300);
    expect(now.history.undo.length).toBe(history.undo.length + 1);
    expect(desk.variantDay(id)?.stands).toBe(true);
    expect(desk.undo()).toBe("Adopt variant Longer");
    expect(desk.state.getState().plan).toEqual(kept);
    expect(desk.redo()).toBe("Adopt variant Longer");
    expect(desk.variantDay(id)?.stands).toBe(true);
  });

  it("is refused, with a word, when the plan has changed where it gives something up", () => {
    const { desk, id } = deskWithOffered();
    desk.edit("Shorten", (plan) => ({
      evas: plan.evas.map((eva) => ({ ...eva, longestS: duration(20_000) })),
    }));
    const { plan } = desk.state.getState();
    expect(desk.variantDay(id)?.clashes).toHaveLength(1);
    expect(desk.adoptVariant(id)).toBe(false);
    expect(desk.state.getState().plan).toBe(plan);
    expect(desk.state.getState().notices.at(-1)).toMatchObject({ tone: "problem" });
  });

  it("of another name or none is not adopted", () => {
    const { desk } = deskWith();
    expect(desk.adoptVariant("variant-x")).toBe(false);
  });

  it("comes back after a reload with what it gives up", async () => {
    const shelf = freshShelf();
    const { desk, id, way } = deskWithOffered({ archive: browserArchive(shelf) });
    await desk.saveNow();
    const again = deskWith({ archive: browserArchive(shelf), newId: () => "later" }).desk;
    expect(await again.restore()).toBe(true);
    expect(again.variantDay(id)?.givesUp?.sentence).toBe(way.sentence);
    expect(again.adoptVariant(id)).toBe(true);
    expect(again.state.getState().plan.evas[0]!.longestS).toBe(25_300);
  });

  it("comes back when it was removed and that is undone", () => {
    const { desk, id } = deskWithOffered();
    desk.removeVariant(id);
    desk.undo();
    expect(desk.variantDay(id)?.givesUp?.patch).toHaveLength(1);
  });

  it("counts its changes from the open day", () => {
    const { desk } = deskWith();
    desk.keepVariant("Now");
    const { plan } = desk.state.getState();
    const id = plan.variants[0]!.id;
    desk.reschedule("Move", scheduleWith(plan, "one", 9000));
    expect(desk.variantDay(id)?.verdict.score.changes).toBe(1);
  });
});
