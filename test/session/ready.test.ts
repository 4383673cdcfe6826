import { describe, expect, it, vi } from "vitest";
import { check } from "../../src/check/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { blankPlan, blankVerdict } from "../../src/session/blank.ts";
import { browserArchive } from "../../src/session/shelf/archive.ts";
import { sessionWith, freshShelf, smallInput, stored } from "./bench.ts";

describe("a blank plan's verdict", () => {
  it("is what the judge says of it, but for what the rules leave room for", () => {
    const plan = blankPlan(Date.UTC(2031, 3, 5, 6, 7));
    expect({ ...blankVerdict(plan), spares: check(plan).spares }).toEqual(check(plan));
  });
});

/** A desk whose plans are made ready when the test says so. */
function slowSession(archive = browserArchive(freshShelf())) {
  const asked: { readonly plan: Plan; readonly done: (go: boolean) => Promise<void> }[] = [];
  const { session } = sessionWith({
    archive,
    makeReady: (plan) =>
      new Promise((resolve) => {
        const done = async (go: boolean): Promise<void> => {
          resolve(go);
          await stored();
        };
        asked.push({ plan, done });
      }),
  });
  return { session, asked };
}
const other = JSON.stringify({ ...smallInput, title: "Another day" });
const file = { name: "other.json", size: other.length, text: () => Promise.resolve(other) };

describe("a plan that is opened", () => {
  it("is laid when it was made ready, and not before; the very plan that was made ready", async () => {
    const { session, asked } = slowSession();
    const opening = session.openFile(file);
    await vi.waitFor(() => expect(asked).toHaveLength(1));
    expect(session.state.getState().plan.title).toBe("A small day");
    await asked[0]!.done(true);
    expect(await opening).toBe(true);
    expect(session.state.getState().plan).toBe(asked[0]!.plan);
  });

  it("is not opened where that was broken off, and the open one stays as it is", async () => {
    const { session, asked } = slowSession();
    const before = session.state.getState();
    const opening = session.openFile(file);
    await vi.waitFor(() => expect(asked).toHaveLength(1));
    await asked[0]!.done(false);
    expect(await opening).toBe(false);
    const { plan, slot, refusal } = session.state.getState();
    expect([plan, slot, refusal]).toEqual([before.plan, before.slot, null]);
  });

  it("at the start is made ready as it lies on the shelf, and stays there where that is broken off", async () => {
    const archive = browserArchive(freshShelf());
    const first = sessionWith({ archive }).session;
    await first.saveNow();
    const { session, asked } = slowSession(archive);
    const restoring = session.restore();
    await vi.waitFor(() => expect(asked).toHaveLength(1));
    expect(asked.map(({ plan }) => plan.title)).toEqual(["A small day"]);
    await asked[0]!.done(false);
    // The other plans of the shelf are tried; there is none.
    expect(await restoring).toBe(false);
    expect((await archive.cards()).map(({ title }) => title)).toContain("A small day");
  });
});
