import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { browserArchive } from "../../../src/session/shelf/archive.ts";
import { copyTitle } from "../../../src/session/shelf/shelf.ts";
import { sessionWith, freshShelf, packReport, scheduleWith, settled, smallInput, stored } from "../bench.ts";

const HOUR_MS = 3_600_000;

/** A desk on which "First" was opened and changed, and then "Second" opened. */
async function twoPlans() {
  const made = sessionWith({ archive: browserArchive(freshShelf()) });
  const { session } = made;
  session.edit("Rename", () => ({ title: "First" }));
  const first = session.state.getState().slot;
  session.open(JSON.stringify({ ...smallInput, title: "Second" }));
  const second = session.state.getState().slot;
  await session.saveNow();
  return { ...made, first, second };
}

describe("the shelf of plans", () => {
  it("has a card of each with title, size, counts and a picture, the one saved last first", async () => {
    const { session, clock, first } = await twoPlans();
    clock.moveOn(1000);
    session.place("two", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    const cards = await session.shelf();
    expect(cards.map(({ title, tasks, placed }) => [title, tasks, placed])).toEqual([
      ["Second", 3, 2],
      ["First", 3, 1],
    ]);
    expect(cards[0]!.bytes).toBe(session.saveText().length);
    // From 7200 to 9900 s: the first task is the first third of the shown span.
    expect(cards[0]!.picture).toEqual({
      rows: [
        { outings: [[0, 333]], blocks: [[0, 333, "sampling"]] },
        { outings: [[667, 1000]], blocks: [[667, 1000, "sampling"]] },
      ],
    });
    expect(cards[1]!.slot).toBe(first);
  });

  it("opens none twice that lies there as it is, and never over another", async () => {
    const { session } = await twoPlans();
    expect(await session.openReady("small")).toBe(true);
    const ready = session.state.getState().slot;
    await session.saveNow();
    expect(await session.openReady("small")).toBe(true);
    expect(session.state.getState().slot).toBe(ready);
    session.newPlan();
    expect(await session.openReady("small")).toBe(true);
    expect(session.state.getState().slot).toBe(ready);
    session.edit("Rename", () => ({ title: "Changed" }));
    expect(await session.openReady("small")).toBe(true);
    expect(session.state.getState().slot).not.toBe(ready);
    expect((await session.shelf()).map((one) => one.title).sort()).toEqual([
      "A small day",
      "Changed",
      "First",
      "New plan",
      "Second",
    ]);
  });

  it("gives a plan another title whether it is open or not, as a step that is undone", async () => {
    const { session, first, second } = await twoPlans();
    expect((await session.renamePlan(first, "Northern rim")).ok).toBe(true);
    expect((await session.renamePlan(second, "Southern rim")).ok).toBe(true);
    expect((await session.renamePlan(first, "")).ok).toBe(false);
    expect((await session.shelf()).map((one) => one.title).sort()).toEqual(["Northern rim", "Southern rim"]);
    expect(session.undo()).toBe("Rename the plan");
    await session.openSlot(first);
    expect(session.state.getState().plan.title).toBe("Northern rim");
    expect(session.undo()).toBe("Rename the plan");
    expect(session.undo()).toBe("Rename");
    expect(session.state.getState().plan.title).toBe("A small day");
    expect((await session.shelf()).some((one) => /set aside/.test(one.title))).toBe(false);
    expect(await session.listQuarantine()).toEqual([]);
  });

  it("copies, puts into the bin and back, and deletes for good only what is there", async () => {
    const { session, first, second } = await twoPlans();
    expect(await session.openCopy({ slot: first })).toBe(true);
    expect(session.state.getState().plan.title).toBe("First (copy)");
    expect(copyTitle("x".repeat(120))).toHaveLength(120);
    const copy = session.state.getState().slot;
    await session.saveNow();
    expect(await session.binPlan(copy, true)).toMatch(/open another one first/);
    expect(await session.binPlan(first, true)).toBeNull();
    const binned = (await session.shelf()).filter((one) => one.binnedAtMs !== null);
    expect(binned.map((one) => one.slot)).toEqual([first]);
    expect(await session.binPlan(first, false)).toBeNull();
    await session.openSlot(first);
    expect(session.state.getState().plan.title).toBe("First");
    await session.dropPlan(second);
    expect((await session.shelf()).map((one) => one.slot).sort()).toEqual([first, copy].sort());
    expect(await session.openSlot(second)).toBe(false);
    expect(session.state.getState().plan.title).toBe("First");
  });

  it("saves the plan that is left as it was left, also when the store fails for a while", async () => {
    const shelf = browserArchive(freshShelf());
    let full = true;
    const { session, clock } = sessionWith({
      archive: {
        ...shelf,
        writePlan: (...given) =>
          full
            ? Promise.reject(new DOMException("no room", "QuotaExceededError"))
            : shelf.writePlan(...given),
      },
    });
    session.edit("Rename", () => ({ title: "Left behind" }));
    const left = session.state.getState().slot;
    session.newPlan();
    await session.saveNow();
    expect(session.state.getState().saving.status).toBe("failed");
    expect(session.state.getState().notices[0]!.text).toMatch(/no room left.*Save it to a file/);
    full = false;
    clock.moveOn(5000);
    await session.saveNow();
    await stored();
    expect(session.state.getState().saving.status).toBe("saved");
    expect((await session.shelf()).map((one) => one.title).sort()).toEqual(["Left behind", "New plan"]);
    expect(await session.openSlot(left)).toBe(true);
    expect(session.undo()).toBe("Rename");
  });
});

describe("states to go back to", () => {
  it("are kept at opening, after a pack, once an hour of work, and as revisions", async () => {
    const { session, engine, clock, first } = await twoPlans();
    clock.moveOn(1000);
    await session.openSlot(first);
    const work = session.pack({ seed: 1, seconds: 1 });
    const { plan } = session.state.getState();
    await engine.packs.at(-1)!.answer(packReport(plan, scheduleWith(plan, "two", 9000)));
    await work;
    await stored();
    clock.moveOn(1000);
    session.setAuthor("A planner");
    await session.keepRevision({ name: "R1", note: "As agreed" });
    expect(session.state.getState().plan.revision).toEqual({ name: "R1", note: "As agreed" });
    expect((await session.keepRevision({ name: "x".repeat(25), note: "" })).ok).toBe(false);
    clock.moveOn(HOUR_MS);
    session.edit("Rename", () => ({ title: "An hour later" }));
    clock.moveOn(1000);
    await settled();
    await session.saveNow();
    await stored();
    const states = await session.statesOf(first);
    expect(states.map(({ kind, name, note, author }) => [kind, name, note, author])).toEqual([
      ["hour", "", "", "A planner"],
      ["revision", "R1", "As agreed", "A planner"],
      ["pack", "", "", ""],
      ["opened", "", "", ""],
    ]);

    expect(await session.goBackTo(states[3]!.key)).toBe(true);
    expect(session.state.getState().plan.schedule.placements).toHaveLength(1);
    expect(session.state.getState().plan.title).toBe("First");
    expect(session.undo()).toBe("Go back to a state");
    expect(session.state.getState().plan.title).toBe("An hour later");
    expect(await session.openCopy({ state: states[2]!.key })).toBe(true);
    expect(session.state.getState().plan.title).toBe("First (copy)");
    expect(session.state.getState().plan.schedule.placements).toHaveLength(2);
    await session.saveNow();
    expect((await session.fileOf({ state: states[2]!.key })).name).toBe("first.json");
  });

  it("are kept of every revision wherever it is named, with who did it, and not again by what is taken back", async () => {
    const { session, clock } = await twoPlans();
    const { slot } = session.state.getState();
    session.setAuthor("A planner");
    const name = (revision: string): void => {
      clock.moveOn(1000);
      session.edit("Revision name", () => ({ revision: { name: revision, note: "" } }));
    };
    name("R1");
    session.edit("Rename", () => ({ title: "Later" }));
    name("R2");
    session.undo();
    session.redo();
    const named = async () => (await session.statesOf(slot)).filter(({ kind }) => kind === "revision");
    await expect.poll(async () => (await named()).length).toBe(2);
    await stored();
    const revisions = await named();
    expect(revisions.map((one) => [one.name, one.author])).toEqual([
      ["R2", "A planner"],
      ["R1", "A planner"],
    ]);
    expect((await session.planOf({ state: revisions[1]!.key }))?.title).toBe("Second");
    // The same name for another state is another state.
    session.edit("Rename", () => ({ title: "Later still" }));
    await session.keepRevision({ name: "R2", note: "" });
    await session.keepRevision({ name: "R2", note: "" });
    expect((await named()).map((one) => one.name)).toEqual(["R2", "R2", "R1"]);
  });

  it("are kept once where nothing has changed in between", async () => {
    const { session, first, second } = await twoPlans();
    for (let k = 0; k < 3; k += 1) {
      await session.openSlot(first);
      await session.openSlot(second);
    }
    expect(await session.statesOf(first)).toHaveLength(1);
  });
});
