import { describe, expect, it } from "vitest";
import type { Archive } from "../../../src/session/shelf/records.ts";
import { browserArchive } from "../../../src/session/shelf/archive.ts";
import { sessionWith, freshShelf, planOf, smallInput } from "../bench.ts";

const recordOf = (title: string, more: object = {}) => ({
  text: JSON.stringify({ ...smallInput, title }),
  savedAtMs: 5,
  writer: "other",
  ...more,
});

/** A desk over a shelf on which the given things were set aside in turn, a second apart. */
async function withQuarantined(...found: readonly unknown[]) {
  const archive = browserArchive(freshShelf());
  for (const [k, one] of found.entries())
    await archive.putQuarantined({ key: k + 1, found: one, reason: `reason ${k}`, atMs: 1000 * k });
  const { session } = sessionWith({ archive });
  return { session, archive };
}

describe("what is kept aside", () => {
  it("is listed, the newest first, with title, reason, size and whether it can be opened", async () => {
    const broken = { ...recordOf("Broken ridge"), text: '{"title":"Broken \\"ridge\\"","crew":' };
    const { session } = await withQuarantined(recordOf("Northern rim"), broken, { some: "thing" }, undefined);
    const kept = await session.listQuarantine();
    expect(kept.map(({ title, reason, atMs, fileName }) => [title, reason, atMs, fileName])).toEqual([
      [null, "reason 3", 3000, "kept-1970-01-01t00-00.json"],
      [null, "reason 2", 2000, "kept-1970-01-01t00-00.json"],
      ['Broken "ridge"', "reason 1", 1000, "broken-ridge.json"],
      ["Northern rim", "reason 0", 0, "northern-rim.json"],
    ]);
    expect(kept.map((one) => one.fault)).toEqual([
      "it is no record of this program",
      "it is no record of this program",
      expect.stringContaining("not JSON"),
      null,
    ]);
    expect(kept[1]!.text).toBe('{\n  "some": "thing"\n}');
    expect(kept[3]!.bytes).toBe(kept[3]!.text.length);
    expect(kept[0]!.text).toBe("");
  });

  it("counts bytes, not letters", async () => {
    const { session } = await withQuarantined({ word: "\u00e9\u2192" });
    const [one] = await session.listQuarantine();
    expect(one!.bytes).toBe(one!.text.length + 1 + 2);
  });

  it("opens as a plan of its own, with what its variants give up, and stays kept", async () => {
    // As format 1 had it: the variant in the text, what it gives up beside.
    const change = { path: ["evas", "#eva-1", "longestS"], from: 25_000, to: 25_300 };
    const givenUp = [["v1", { sentence: "A longer EVA.", owner: null, changes: [change] }]];
    const variants = [{ id: "v1", name: "Longer", schedule: { placements: [] } }];
    const text = JSON.stringify({ ...smallInput, version: 1, title: "Northern rim", variants });
    const { session } = await withQuarantined(
      recordOf("Northern rim", { text, givenUp }),
      recordOf("x", { text: "{}" }),
    );
    const [bad, good] = await session.listQuarantine();
    const { plan: before, slot } = session.state.getState();
    await session.saveNow();
    expect(session.openQuarantined(bad!)).toBe(false);
    expect(session.state.getState().plan).toBe(before);
    expect(session.state.getState().refusal?.faults.length).toBeGreaterThan(0);
    expect(session.openQuarantined(good!)).toBe(true);
    const givesUp = { sentence: "A longer EVA.", owner: null, patch: [change] };
    expect(session.state.getState().plan).toEqual(
      planOf({
        ...smallInput,
        title: "Northern rim",
        variants: variants.map((one) => ({ ...one, givesUp })),
      }),
    );
    expect(session.variantDay("v1")?.plan.evas[0]?.longestS).toBe(25_300);
    expect(await session.openSlot(slot)).toBe(true);
    expect(session.state.getState().plan).toEqual(before);
    expect(await session.listQuarantine()).toHaveLength(2);
  });

  it("is deleted and brought back to its place, as it was found", async () => {
    const { session, archive } = await withQuarantined(recordOf("First"), recordOf("Second"));
    const before = await archive.readQuarantine();
    const [, first] = await session.listQuarantine();
    await session.deleteQuarantined(first!);
    expect((await session.listQuarantine()).map((one) => one.title)).toEqual(["Second"]);
    await session.restoreQuarantined(first!);
    expect(await archive.readQuarantine()).toEqual(before);
  });

  it("says when the store cannot be used", async () => {
    const shelf = browserArchive(freshShelf());
    const archive: Archive = { ...shelf, readQuarantine: () => Promise.reject(new Error("switched off")) };
    await expect(sessionWith({ archive }).session.listQuarantine()).rejects.toThrow("switched off");
  });
});
