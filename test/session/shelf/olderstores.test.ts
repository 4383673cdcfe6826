import { openDB } from "idb";
import { describe, expect, it } from "vitest";
import { createSession } from "../../../src/session/index.ts";
import { browserArchive } from "../../../src/session/shelf/archive.ts";
import { judgeFor } from "../../../src/check/index.ts";
import { freshShelf, HandClock, HandEngine, planOf, smallInput } from "../bench.ts";

/** What each version of this program left in a browser, as it lay there. */
const change = { path: ["evas", "#eva-1", "longestS"], from: 25_000, to: 25_300 };
const variants = [{ id: "v1", name: "Longer", schedule: { placements: [] } }];
const first = { ...smallInput, version: 1, title: "Oldest", variants };
const givenUp = [["v1", { sentence: "A longer EVA.", owner: null, changes: [change] }]];
const withGivesUp = variants.map((one) => ({
  ...one,
  givesUp: { sentence: "A longer EVA.", owner: null, patch: [change] },
}));
const second = { ...smallInput, version: 2, title: "Older" };
const third = { ...smallInput, version: 3, title: "Older" };
const history = {
  undo: [{ name: "Rename", patch: [{ path: ["title"], from: "A small day", to: "Older" }] }],
  redo: [],
};

const STORES = [
  {
    of: "format 1, before anything was given up",
    open: { text: JSON.stringify({ ...first, variants: [] }), savedAtMs: 1, writer: "w" },
    plan: planOf({ ...smallInput, title: "Oldest" }),
    undo: null,
  },
  {
    of: "format 1, with what variants give up beside",
    open: { text: JSON.stringify(first), givenUp, savedAtMs: 1, writer: "w" },
    plan: planOf({ ...smallInput, title: "Oldest", variants: withGivesUp }),
    undo: null,
  },
  {
    of: "format 2, without steps",
    open: { text: JSON.stringify(second), savedAtMs: 2, writer: "w" },
    plan: planOf(third as never),
    undo: null,
  },
  {
    of: "format 2, with steps, which are about fields as they were then",
    open: { text: JSON.stringify(second), history, savedAtMs: 3, writer: "w" },
    plan: planOf(third as never),
    undo: null,
  },
  {
    of: "format 3, with steps",
    open: { text: JSON.stringify(third), history, savedAtMs: 4, writer: "w" },
    plan: planOf(third as never),
    undo: "Rename",
  },
];

/** The store of version 1: one open plan, the last readable one, and what was set aside. */
async function oldStore(open: unknown, good?: unknown): Promise<string> {
  const name = freshShelf();
  const db = await openDB(name, 1, {
    upgrade(fresh) {
      fresh.createObjectStore("documents");
      fresh.createObjectStore("aside", { autoIncrement: true });
    },
  });
  if (open !== undefined) await db.put("documents", open, "open");
  if (good !== undefined) await db.put("documents", good, "good");
  await db.add("aside", { found: { some: "thing" }, reason: "of old", atMs: 7 });
  db.close();
  return name;
}

function visit(name: string) {
  let ids = 0;
  return createSession({
    engine: new HandEngine(),
    judgeFor,
    archive: browserArchive(name),
    clock: new HandClock(),
    newId: () => `visit-${(ids += 1)}`,
    readyText: () => Promise.reject(new Error("none")),
  });
}

describe("what an older version of this program left in the browser", () => {
  for (const { of, open, plan, undo } of STORES) {
    it(`comes to lie on the shelf: ${of}`, async () => {
      const session = visit(await oldStore(open, open));
      expect(await session.restore()).toBe(true);
      expect(session.state.getState().plan).toEqual(plan);
      expect(session.state.getState().notices).toEqual([]);
      const [card, ...more] = await session.shelf();
      expect(card).toMatchObject({ title: plan.title, slot: session.state.getState().slot });
      expect(more).toEqual([]);
      expect((await session.listQuarantine()).map((one) => one.reason)).toEqual(["of old"]);
      expect(session.undo()).toBe(undo);
    });
  }

  it("that cannot be read is kept aside, and its last readable form is open", async () => {
    const torn = { text: '{"title":"Torn"', savedAtMs: 9, writer: "w" };
    const session = visit(await oldStore(torn, STORES[2]!.open));
    expect(await session.restore()).toBe(true);
    expect(session.state.getState().plan.title).toBe("Older");
    expect((await session.listQuarantine()).map((one) => one.title)).toContain("Torn");
  });

  it("that was empty stays empty", async () => {
    const session = visit(await oldStore(undefined));
    expect(await session.restore()).toBe(false);
    expect(await session.shelf()).toEqual([]);
    expect(session.state.getState().notices).toEqual([]);
  });
});

describe("a store that cannot be used", () => {
  const troubles: readonly [unknown, RegExp][] = [
    [new DOMException("x", "QuotaExceededError"), /no room left/],
    [new DOMException("x", "SecurityError"), /private window, or storage is switched off/],
    [new DOMException("x", "InvalidStateError"), /private window/],
    [new DOMException("x", "VersionError"), /newer version of this program/],
    [new DOMException("x", "UnknownError"), /another process holds it, or the disk fails/],
    [new ReferenceError("indexedDB is not defined"), /has no store/],
    [new Error("it is on fire"), /it is on fire/],
  ];
  for (const [error, words] of troubles) {
    it(`is told in words, with the way to a file: ${String(words)}`, async () => {
      const session = createSession({
        engine: new HandEngine(),
        judgeFor,
        archive: { ...browserArchive(freshShelf()), lastOpen: () => Promise.reject(error) },
        clock: new HandClock(),
        newId: () => "one",
        readyText: () => Promise.reject(new Error("none")),
      });
      expect(await session.restore()).toBe(false);
      expect(session.state.getState().notices[0]!.text).toMatch(words);
      expect(session.state.getState().notices[0]!.text).toMatch(/Save to a file/);
    });
  }

  it("of a newer version of this program is told as such", async () => {
    const name = freshShelf();
    (await openDB(name, 99)).close();
    const session = visit(name);
    expect(await session.restore()).toBe(false);
    expect(session.state.getState().notices[0]!.text).toMatch(/newer version of this program/);
  });

  it("that does not answer is done without, so that the page comes up", async () => {
    const clock = new HandClock();
    const session = createSession({
      engine: new HandEngine(),
      judgeFor,
      archive: { ...browserArchive(freshShelf()), lastOpen: () => new Promise(() => undefined) },
      clock,
      newId: () => "one",
      readyText: () => Promise.reject(new Error("none")),
    });
    const back = session.restore();
    clock.moveOn(10_000);
    expect(await back).toBe(false);
    expect(session.state.getState().notices[0]!.text).toMatch(/does not answer.*Save to a file/);
  });
});
