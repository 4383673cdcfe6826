import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../src/check/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import { type Archive, browserArchive, createDesk, type StoredPlan } from "../../../src/session/index.ts";
import { randomPlan } from "../../properties/randomPlan.ts";
import {
  deskWith,
  freshShelf,
  HandClock,
  HandEngine,
  openRecord,
  putOpen,
  settled,
  smallInput,
  stored,
} from "../bench.ts";

/** A second visit: a fresh desk over the same shelf. */
function visit(archive: Archive) {
  let ids = 0;
  const clock = new HandClock();
  const visitor = `v${Math.floor(performance.now() * 1000)}`;
  const desk = createDesk({
    engine: new HandEngine(),
    spare: () => new HandEngine(),
    judgeFor,
    archive,
    clock,
    newId: () => `${visitor}-${(ids += 1)}`,
    readyText: () => Promise.reject(new Error("none")),
  });
  return { desk, clock };
}

describe("saving in the browser", () => {
  it("gathers changes for a moment, then brings plan and schedule back after a reload", async () => {
    const shelf = freshShelf();
    const archive = browserArchive(shelf);
    const { desk, clock } = deskWith({ archive });
    await desk.saveNow();
    desk.place("two", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    expect(desk.state.getState().saving.status).toBe("waiting");
    expect((await openRecord(archive))?.text).not.toContain('"task": "two"');
    clock.moveOn(1000);
    await desk.saveNow();
    expect(desk.state.getState().saving).toMatchObject({ status: "saved", message: null });

    const again = visit(browserArchive(shelf));
    expect(await again.desk.restore()).toBe(true);
    expect(again.desk.state.getState().plan).toEqual(desk.state.getState().plan);
    expect(again.desk.state.getState().verdict).toEqual(desk.state.getState().verdict);
    expect(again.desk.state.getState().saving.status).toBe("saved");
    expect(again.desk.state.getState().history).toEqual(desk.state.getState().history);
    expect(again.desk.undo()).toBe("Place Task two");
    expect(again.desk.state.getState().plan.schedule.placements).toHaveLength(1);
    expect(again.desk.redo()).toBe("Place Task two");
    expect(again.desk.state.getState().plan).toEqual(desk.state.getState().plan);
  });

  it("can be done at once, when the page is left", async () => {
    const archive = browserArchive(freshShelf());
    const { desk } = deskWith({ archive });
    await desk.saveNow();
    expect(await visit(archive).desk.restore()).toBe(true);
  });

  it("has nothing to bring back on the first visit", async () => {
    const { desk } = visit(browserArchive(freshShelf()));
    expect(await desk.restore()).toBe(false);
    expect(desk.state.getState().notices).toEqual([]);
  });

  it("says a failed save, keeps the last good record, and says when it works again", async () => {
    const shelf = browserArchive(freshShelf());
    let full = false;
    const archive: Archive = {
      ...shelf,
      writePlan: (card, record, expected) =>
        full ? Promise.reject(new Error("the disk is full")) : shelf.writePlan(card, record, expected),
    };
    const { desk } = deskWith({ archive });
    await desk.saveNow();
    full = true;
    desk.edit("Rename", () => ({ title: "Lost?" }));
    await desk.saveNow();
    desk.edit("Rename", () => ({ title: "Lost again?" }));
    await desk.saveNow();
    expect(desk.state.getState().saving).toMatchObject({ status: "failed", message: "the disk is full" });
    expect(desk.state.getState().notices.filter((one) => /disk is full/.test(one.text))).toHaveLength(1);

    const again = visit(shelf);
    await again.desk.restore();
    expect(again.desk.state.getState().plan.title).toBe("A small day");

    full = false;
    desk.edit("Rename", () => ({ title: "Kept" }));
    await desk.saveNow();
    expect(desk.state.getState().saving).toMatchObject({ status: "saved", message: null });
  });

  it("never waits longer because changes go on, and tries again when a save has failed", async () => {
    const shelf = browserArchive(freshShelf());
    let full = false;
    const saved: string[] = [];
    const archive: Archive = {
      ...shelf,
      writePlan: (_card, record) => {
        if (full) return Promise.reject(new Error("the disk is full"));
        saved.push(/"title": "(.*)"/.exec(record.text)?.[1] ?? "");
        return Promise.resolve("written");
      },
    };
    const { desk, clock } = deskWith({ archive });
    await desk.saveNow();
    // A change every 50 ms for 2 s, as of a key held down: each is saved within 250 ms.
    for (let k = 0; k < 40; k += 1) {
      desk.edit("Rename", () => ({ title: `Step ${k}` }));
      clock.moveOn(50);
      await settled();
      if (k >= 5)
        expect(
          saved
            .slice(1)
            .map((title) => Number(title.slice(5)))
            .at(-1),
        ).toBeGreaterThanOrEqual(k - 4);
    }
    clock.moveOn(1000);
    await settled();
    full = true;
    desk.edit("Rename", () => ({ title: "While it was full" }));
    clock.moveOn(1000);
    await settled();
    expect(desk.state.getState().saving.status).toBe("failed");
    full = false;
    clock.moveOn(5000);
    await settled();
    expect(desk.state.getState().saving.status).toBe("saved");
    expect(saved.at(-1)).toBe("While it was full");
  });

  it("leaves the plan that was open as it was, with its history, when another one is opened", async () => {
    const archive = browserArchive(freshShelf());
    const { desk } = deskWith({ archive });
    desk.edit("Rename", () => ({ title: "Left" }));
    const { plan: before, history, slot } = desk.state.getState();
    const large = randomPlan(4, { tasks: 60, crew: 2, evas: 2, places: 6, features: 0.6 });
    expect(desk.open(JSON.stringify(large))).toBe(true);
    expect(desk.state.getState().history).toEqual({ undo: [], redo: [] });
    await desk.saveNow();
    const again = visit(archive).desk;
    await again.restore();
    expect(JSON.stringify(again.state.getState().plan)).toBe(JSON.stringify(large));
    expect(await again.openSlot(slot)).toBe(true);
    expect(again.state.getState().plan).toEqual(before);
    expect(again.state.getState().history).toEqual(history);
    expect(again.undo()).toBe("Rename");
  });

  it("forgets steps in a record of an older format: they would put fields as they were then into the plan", async () => {
    const archive = browserArchive(freshShelf());
    const { desk } = deskWith({ archive });
    desk.edit("Rename", () => ({ title: "Other" }));
    await desk.saveNow();
    const found = (await openRecord(archive)) as StoredPlan;
    const older = JSON.stringify({ ...JSON.parse(found.text), version: 2 });
    await putOpen(archive, { ...found, text: older });
    const again = visit(archive).desk;
    await again.restore();
    expect(again.state.getState().plan.title).toBe("Other");
    expect(again.undo()).toBeNull();
  });

  it("forgets steps in a record that no longer fit its plan or are none, with a word", async () => {
    const archive = browserArchive(freshShelf());
    const { desk } = deskWith({ archive });
    desk.edit("Rename", () => ({ title: "Other" }));
    await desk.saveNow();
    const found = (await openRecord(archive)) as StoredPlan & { history: { undo: unknown[] } };
    const strange = { name: "Strange", patch: [{ path: ["title"], from: "Nothing", to: "Like it" }] };
    const emptied = { name: "Emptied", patch: [{ path: ["title"], from: "", to: "Other" }] };
    for (const [undo, named] of [
      [[{ name: 1 }, ...found.history.undo.slice(-1)], "Rename"],
      [[strange], null],
      // It fits, but what it leads back to is no plan: a title may not be empty.
      [[emptied], null],
      ["nonsense", null],
    ] as const) {
      await putOpen(archive, { ...found, history: { undo, redo: [] } });
      const again = visit(archive).desk;
      expect(await again.restore()).toBe(true);
      expect(again.undo()).toBe(named);
      expect(again.state.getState().plan.title).toBe(named === null ? "Other" : "A small day");
      expect(again.state.getState().history.undo).toEqual([]);
    }
  });

  it("keeps a corrupt record aside, says so, and opens the last readable one", async () => {
    const archive = browserArchive(freshShelf());
    const first = deskWith({ archive });
    await first.desk.saveNow();
    await visit(archive).desk.restore();
    const broken = { text: '{"format":"lopeline-plan"', savedAtMs: 5, writer: "n1" };
    await putOpen(archive, broken);

    const again = visit(archive);
    expect(await again.desk.restore()).toBe(true);
    expect(again.desk.state.getState().plan.title).toBe("A small day");
    expect(again.desk.state.getState().notices[0]).toMatchObject({ tone: "problem" });
    expect(again.desk.state.getState().notices[0]!.text).toMatch(/not JSON.*kept aside.*last readable state/);
    expect((await archive.readQuarantine()).map((one) => one.found)).toEqual([broken]);
  });

  it("keeps a corrupt record aside also when there is no readable one, and never writes over it", async () => {
    const archive = browserArchive(freshShelf());
    const broken = { text: JSON.stringify({ ...smallInput, crew: "nobody" }), savedAtMs: 5, writer: "other" };
    await putOpen(archive, broken);
    const { desk } = visit(archive);
    expect(await desk.restore()).toBe(false);
    expect(desk.state.getState().notices[0]!.text).toMatch(/crew.*kept aside/);
    desk.newPlan();
    await desk.saveNow();
    expect((await desk.listQuarantine()).map((one) => one.found)).toEqual([broken]);
  });

  it("sets aside what another window has saved in the meantime", async () => {
    const archive = browserArchive(freshShelf());
    const mine = visit(archive);
    mine.desk.open(JSON.stringify({ ...smallInput, title: "Mine" }));
    await mine.desk.saveNow();
    await stored();
    const theirs = visit(archive);
    await theirs.desk.restore();
    theirs.desk.edit("Rename", () => ({ title: "Theirs" }));
    await theirs.desk.saveNow();
    expect(theirs.desk.state.getState().notices).toEqual([]);

    mine.desk.edit("Rename", () => ({ title: "Mine still" }));
    await mine.desk.saveNow();
    expect(mine.desk.state.getState().notices.at(-1)?.text).toMatch(/Another window.*kept aside/);
    const [aside] = await archive.readQuarantine();
    expect(JSON.stringify(aside?.found)).toMatch(/Theirs/);
    mine.desk.edit("Rename", () => ({ title: "Mine again" }));
    await mine.desk.saveNow();
    expect(await archive.readQuarantine()).toHaveLength(1);
    theirs.desk.edit("Rename", () => ({ title: "Theirs still" }));
    await theirs.desk.saveNow();
    expect(await archive.readQuarantine()).toHaveLength(2);
  });

  it("says when the store cannot be used at all", async () => {
    const refuse = () => Promise.reject(new Error("storage is switched off"));
    const archive = Object.fromEntries(
      Object.keys(browserArchive(freshShelf())).map((name) => [name, refuse]),
    ) as unknown as Archive;
    const { desk } = visit(archive);
    expect(await desk.restore()).toBe(false);
    expect(desk.state.getState().notices[0]!.text).toMatch(/switched off/);
  });
});
