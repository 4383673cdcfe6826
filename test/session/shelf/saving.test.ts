import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../src/check/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import { createSession } from "../../../src/session/index.ts";
import type { StoredPlan } from "../../../src/session/shelf/records.ts";
import type { Archive } from "../../../src/session/shelf/records.ts";
import { browserArchive } from "../../../src/session/shelf/archive.ts";
import { randomPlan } from "../../properties/randomPlan.ts";
import {
  sessionWith,
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
  const session = createSession({
    engine: new HandEngine(),
    spare: () => new HandEngine(),
    judgeFor,
    archive,
    clock,
    newId: () => `${visitor}-${(ids += 1)}`,
    readyText: () => Promise.reject(new Error("none")),
  });
  return { session, clock };
}

describe("saving in the browser", () => {
  it("gathers changes for a moment, then brings plan and schedule back after a reload", async () => {
    const shelf = freshShelf();
    const archive = browserArchive(shelf);
    const { session, clock } = sessionWith({ archive });
    await session.saveNow();
    session.place("two", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    expect(session.state.getState().saving.status).toBe("waiting");
    expect((await openRecord(archive))?.text).not.toContain('"task": "two"');
    clock.moveOn(1000);
    await session.saveNow();
    expect(session.state.getState().saving).toMatchObject({ status: "saved", message: null });

    const again = visit(browserArchive(shelf));
    expect(await again.session.restore()).toBe(true);
    expect(again.session.state.getState().plan).toEqual(session.state.getState().plan);
    expect(again.session.state.getState().verdict).toEqual(session.state.getState().verdict);
    expect(again.session.state.getState().saving.status).toBe("saved");
    expect(again.session.state.getState().history).toEqual(session.state.getState().history);
    expect(again.session.undo()).toBe("Place Task two");
    expect(again.session.state.getState().plan.schedule.placements).toHaveLength(1);
    expect(again.session.redo()).toBe("Place Task two");
    expect(again.session.state.getState().plan).toEqual(session.state.getState().plan);
  });

  it("can be done at once, when the page is left", async () => {
    const archive = browserArchive(freshShelf());
    const { session } = sessionWith({ archive });
    await session.saveNow();
    expect(await visit(archive).session.restore()).toBe(true);
  });

  it("has nothing to bring back on the first visit", async () => {
    const { session } = visit(browserArchive(freshShelf()));
    expect(await session.restore()).toBe(false);
    expect(session.state.getState().notices).toEqual([]);
  });

  it("says a failed save, keeps the last good record, and says when it works again", async () => {
    const shelf = browserArchive(freshShelf());
    let full = false;
    const archive: Archive = {
      ...shelf,
      writePlan: (card, record, expected) =>
        full ? Promise.reject(new Error("the disk is full")) : shelf.writePlan(card, record, expected),
    };
    const { session } = sessionWith({ archive });
    await session.saveNow();
    full = true;
    session.edit("Rename", () => ({ title: "Lost?" }));
    await session.saveNow();
    session.edit("Rename", () => ({ title: "Lost again?" }));
    await session.saveNow();
    expect(session.state.getState().saving).toMatchObject({ status: "failed", message: "the disk is full" });
    expect(session.state.getState().notices.filter((one) => /disk is full/.test(one.text))).toHaveLength(1);

    const again = visit(shelf);
    await again.session.restore();
    expect(again.session.state.getState().plan.title).toBe("A small day");

    full = false;
    session.edit("Rename", () => ({ title: "Kept" }));
    await session.saveNow();
    expect(session.state.getState().saving).toMatchObject({ status: "saved", message: null });
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
    const { session, clock } = sessionWith({ archive });
    await session.saveNow();
    // A change every 50 ms for 2 s, as of a key held down: each is saved within 250 ms.
    for (let k = 0; k < 40; k += 1) {
      session.edit("Rename", () => ({ title: `Step ${k}` }));
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
    session.edit("Rename", () => ({ title: "While it was full" }));
    clock.moveOn(1000);
    await settled();
    expect(session.state.getState().saving.status).toBe("failed");
    full = false;
    clock.moveOn(5000);
    await settled();
    expect(session.state.getState().saving.status).toBe("saved");
    expect(saved.at(-1)).toBe("While it was full");
  });

  it("leaves the plan that was open as it was, with its history, when another one is opened", async () => {
    const archive = browserArchive(freshShelf());
    const { session } = sessionWith({ archive });
    session.edit("Rename", () => ({ title: "Left" }));
    const { plan: before, history, slot } = session.state.getState();
    const large = randomPlan(4, { tasks: 60, crew: 2, evas: 2, places: 6, features: 0.6 });
    expect(session.open(JSON.stringify(large))).toBe(true);
    expect(session.state.getState().history).toEqual({ undo: [], redo: [] });
    await session.saveNow();
    const again = visit(archive).session;
    await again.restore();
    expect(JSON.stringify(again.state.getState().plan)).toBe(JSON.stringify(large));
    expect(await again.openSlot(slot)).toBe(true);
    expect(again.state.getState().plan).toEqual(before);
    expect(again.state.getState().history).toEqual(history);
    expect(again.undo()).toBe("Rename");
  });

  it("forgets steps in a record of an older format: they would put fields as they were then into the plan", async () => {
    const archive = browserArchive(freshShelf());
    const { session } = sessionWith({ archive });
    session.edit("Rename", () => ({ title: "Other" }));
    await session.saveNow();
    const found = (await openRecord(archive)) as StoredPlan;
    const older = JSON.stringify({ ...JSON.parse(found.text), version: 2 });
    await putOpen(archive, { ...found, text: older });
    const again = visit(archive).session;
    await again.restore();
    expect(again.state.getState().plan.title).toBe("Other");
    expect(again.undo()).toBeNull();
  });

  it("forgets steps in a record that no longer fit its plan or are none, with a word", async () => {
    const archive = browserArchive(freshShelf());
    const { session } = sessionWith({ archive });
    session.edit("Rename", () => ({ title: "Other" }));
    await session.saveNow();
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
      const again = visit(archive).session;
      expect(await again.restore()).toBe(true);
      expect(again.undo()).toBe(named);
      expect(again.state.getState().plan.title).toBe(named === null ? "Other" : "A small day");
      expect(again.state.getState().history.undo).toEqual([]);
    }
  });

  it("keeps a corrupt record aside, says so, and opens the last readable one", async () => {
    const archive = browserArchive(freshShelf());
    const first = sessionWith({ archive });
    await first.session.saveNow();
    await visit(archive).session.restore();
    const broken = { text: '{"format":"lopeline-plan"', savedAtMs: 5, writer: "n1" };
    await putOpen(archive, broken);

    const again = visit(archive);
    expect(await again.session.restore()).toBe(true);
    expect(again.session.state.getState().plan.title).toBe("A small day");
    expect(again.session.state.getState().notices[0]).toMatchObject({ tone: "problem" });
    expect(again.session.state.getState().notices[0]!.text).toMatch(
      /not JSON.*kept aside.*last readable state/,
    );
    expect((await archive.readQuarantine()).map((one) => one.found)).toEqual([broken]);
  });

  it("keeps a corrupt record aside also when there is no readable one, and never writes over it", async () => {
    const archive = browserArchive(freshShelf());
    const broken = { text: JSON.stringify({ ...smallInput, crew: "nobody" }), savedAtMs: 5, writer: "other" };
    await putOpen(archive, broken);
    const { session } = visit(archive);
    expect(await session.restore()).toBe(false);
    expect(session.state.getState().notices[0]!.text).toMatch(/crew.*kept aside/);
    session.newPlan();
    await session.saveNow();
    expect((await session.listQuarantine()).map((one) => one.found)).toEqual([broken]);
  });

  it("sets aside what another window has saved in the meantime", async () => {
    const archive = browserArchive(freshShelf());
    const mine = visit(archive);
    mine.session.open(JSON.stringify({ ...smallInput, title: "Mine" }));
    await mine.session.saveNow();
    await stored();
    const theirs = visit(archive);
    await theirs.session.restore();
    theirs.session.edit("Rename", () => ({ title: "Theirs" }));
    await theirs.session.saveNow();
    expect(theirs.session.state.getState().notices).toEqual([]);

    mine.session.edit("Rename", () => ({ title: "Mine still" }));
    await mine.session.saveNow();
    expect(mine.session.state.getState().notices.at(-1)?.text).toMatch(/Another window.*kept aside/);
    const [aside] = await archive.readQuarantine();
    expect(JSON.stringify(aside?.found)).toMatch(/Theirs/);
    mine.session.edit("Rename", () => ({ title: "Mine again" }));
    await mine.session.saveNow();
    expect(await archive.readQuarantine()).toHaveLength(1);
    theirs.session.edit("Rename", () => ({ title: "Theirs still" }));
    await theirs.session.saveNow();
    expect(await archive.readQuarantine()).toHaveLength(2);
  });

  it("says when the store cannot be used at all", async () => {
    const refuse = () => Promise.reject(new Error("storage is switched off"));
    const archive = Object.fromEntries(
      Object.keys(browserArchive(freshShelf())).map((name) => [name, refuse]),
    ) as unknown as Archive;
    const { session } = visit(archive);
    expect(await session.restore()).toBe(false);
    expect(session.state.getState().notices[0]!.text).toMatch(/switched off/);
  });
});
