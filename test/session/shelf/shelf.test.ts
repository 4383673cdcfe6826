import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { browserArchive } from "../../../src/session/index.ts";
import { copyTitle } from "../../../src/session/shelf/shelf.ts";
import { deskWith, freshShelf, packReport, scheduleWith, settled, smallInput, stored } from "../bench.ts";

const HOUR_MS = 3_600_000;

/** A desk on which "First" was opened and changed, and then "Second" opened. */
async function twoPlans() {
  const made = deskWith({ archive: browserArchive(freshShelf()) });
  const { desk } = made;
  desk.edit("Rename", () => ({ title: "First" }));
  const first = desk.state.getState().slot;
  desk.open(JSON.stringify({ ...smallInput, title: "Second" }));
  const second = desk.state.getState().slot;
  await desk.saveNow();
  return { ...made, first, second };
}

describe("the shelf of plans", () => {
  it("has a card of each with title, size, counts and a picture, the one saved last first", async () => {
    const { desk, clock, first } = await twoPlans();
    clock.moveOn(1000);
    desk.place("two", { eva: "eva-1", crew: ["ev2"], startS: instant(9000) });
    const cards = await desk.shelf();
    expect(cards.map(({ title, tasks, placed }) => [title, tasks, placed])).toEqual([
      ["Second", 3, 2],
      ["First", 3, 1],
    ]);
    expect(cards[0]!.bytes).toBe(desk.saveText().length);
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
    const { desk } = await twoPlans();
    expect(await desk.openReady("small")).toBe(true);
    const ready = desk.state.getState().slot;
    await desk.saveNow();
    expect(await desk.openReady("small")).toBe(true);
    expect(desk.state.getState().slot).toBe(ready);
    desk.newPlan();
    expect(await desk.openReady("small")).toBe(true);
    expect(desk.state.getState().slot).toBe(ready);
    desk.edit("Rename", () => ({ title: "Changed" }));
    expect(await desk.openReady("small")).toBe(true);
    expect(desk.state.getState().slot).not.toBe(ready);
    expect((await desk.shelf()).map((one) => one.title).sort()).toEqual([
      "A small day",
      "Changed",
      "First",
      "New plan",
      "Second",
    ]);
  });

  it("gives a plan another title whether it is open or not, as a step that is undone", async () => {
    const { desk, first, second } = await twoPlans();
    expect((await desk.renamePlan(first, "Northern rim")).ok).toBe(true);
    expect((await desk.renamePlan(second, "Southern rim")).ok).toBe(true);
    expect((await desk.renamePlan(first, "")).ok).toBe(false);
    expect((await desk.shelf()).map((one) => one.title).sort()).toEqual(["Northern rim", "Southern rim"]);
    expect(desk.undo()).toBe("Rename the plan");
    await desk.openSlot(first);
    expect(desk.state.getState().plan.title).toBe("Northern rim");
    expect(desk.undo()).toBe("Rename the plan");
    expect(desk.undo()).toBe("Rename");
    expect(desk.state.getState().plan.title).toBe("A small day");
    expect((await desk.shelf()).some((one) => /set aside/.test(one.title))).toBe(false);
    expect(await desk.listQuarantine()).toEqual([]);
  });

  it("copies, puts into the bin and back, and deletes for good only what is there", async () => {
    const { desk, first, second } = await twoPlans();
    expect(await desk.openCopy({ slot: first })).toBe(true);
    expect(desk.state.getState().plan.title).toBe("First (copy)");
    expect(copyTitle("x".repeat(120))).toHaveLength(120);
    const copy = desk.state.getState().slot;
    await desk.saveNow();
    expect(await desk.binPlan(copy, true)).toMatch(/open another one first/);
    expect(await desk.binPlan(first, true)).toBeNull();
    const binned = (await desk.shelf()).filter((one) => one.binnedAtMs !== null);
    expect(binned.map((one) => one.slot)).toEqual([first]);
    expect(await desk.binPlan(first, false)).toBeNull();
    await desk.openSlot(first);
    expect(desk.state.getState().plan.title).toBe("First");
    await desk.dropPlan(second);
    expect((await desk.shelf()).map((one) => one.slot).sort()).toEqual([first, copy].sort());
    expect(await desk.openSlot(second)).toBe(false);
    expect(desk.state.getState().plan.title).toBe("First");
  });

  it("saves the plan that is left as it was left, also when the store fails for a while", async () => {
    const shelf = browserArchive(freshShelf());
    let full = true;
    const { desk, clock } = deskWith({
      archive: {
        ...shelf,
        writePlan: (...given) =>
          full
            ? Promise.reject(new DOMException("no room", "QuotaExceededError"))
            : shelf.writePlan(...given),
      },
    });
    desk.edit("Rename", () => ({ title: "Left behind" }));
    const left = desk.state.getState().slot;
    desk.newPlan();
    await desk.saveNow();
    expect(desk.state.getState().saving.status).toBe("failed");
    expect(desk.state.getState().notices[0]!.text).toMatch(/no room left.*Save it to a file/);
    full = false;
    clock.moveOn(5000);
    await desk.saveNow();
    await stored();
    expect(desk.state.getState().saving.status).toBe("saved");
    expect((await desk.shelf()).map((one) => one.title).sort()).toEqual(["Left behind", "New plan"]);
    expect(await desk.openSlot(left)).toBe(true);
    expect(desk.undo()).toBe("Rename");
  });
});

describe("states to go back to", () => {
  it("are kept at opening, after a pack, once an hour of work, and as revisions", async () => {
    const { desk, engine, clock, first } = await twoPlans();
    clock.moveOn(1000);
    await desk.openSlot(first);
    const work = desk.pack({ seed: 1, seconds: 1 });
    const { plan } = desk.state.getState();
    await engine.packs.at(-1)!.answer(packReport(plan, scheduleWith(plan, "two", 9000)));
    await work;
    await stored();
    clock.moveOn(1000);
    desk.setAuthor("A planner");
    await desk.keepRevision({ name: "R1", note: "As agreed" });
    expect(desk.state.getState().plan.revision).toEqual({ name: "R1", note: "As agreed" });
    expect((await desk.keepRevision({ name: "x".repeat(25), note: "" })).ok).toBe(false);
    clock.moveOn(HOUR_MS);
    desk.edit("Rename", () => ({ title: "An hour later" }));
    clock.moveOn(1000);
    await settled();
    await desk.saveNow();
    await stored();
    const states = await desk.statesOf(first);
    expect(states.map(({ kind, name, note, author }) => [kind, name, note, author])).toEqual([
      ["hour", "", "", "A planner"],
      ["revision", "R1", "As agreed", "A planner"],
      ["pack", "", "", ""],
      ["opened", "", "", ""],
    ]);

    expect(await desk.goBackTo(states[3]!.key)).toBe(true);
    expect(desk.state.getState().plan.schedule.placements).toHaveLength(1);
    expect(desk.state.getState().plan.title).toBe("First");
    expect(desk.undo()).toBe("Go back to a state");
    expect(desk.state.getState().plan.title).toBe("An hour later");
    expect(await desk.openCopy({ state: states[2]!.key })).toBe(true);
    expect(desk.state.getState().plan.title).toBe("First (copy)");
    expect(desk.state.getState().plan.schedule.placements).toHaveLength(2);
    await desk.saveNow();
    expect((await desk.fileOf({ state: states[2]!.key })).name).toBe("first.json");
  });

  it("are kept of every revision wherever it is named, with who did it, and not again by what is taken back", async () => {
    const { desk, clock } = await twoPlans();
    const { slot } = desk.state.getState();
    desk.setAuthor("A planner");
    const name = (revision: string): void => {
      clock.moveOn(1000);
      desk.edit("Revision name", () => ({ revision: { name: revision, note: "" } }));
    };
    name("R1");
    desk.edit("Rename", () => ({ title: "Later" }));
    name("R2");
    desk.undo();
    desk.redo();
    const named = async () => (await desk.statesOf(slot)).filter(({ kind }) => kind === "revision");
    await expect.poll(async () => (await named()).length).toBe(2);
    await stored();
    const revisions = await named();
    expect(revisions.map((one) => [one.name, one.author])).toEqual([
      ["R2", "A planner"],
      ["R1", "A planner"],
    ]);
    expect((await desk.planOf({ state: revisions[1]!.key }))?.title).toBe("Second");
    // The same name for another state is another state.
    desk.edit("Rename", () => ({ title: "Later still" }));
    await desk.keepRevision({ name: "R2", note: "" });
    await desk.keepRevision({ name: "R2", note: "" });
    expect((await named()).map((one) => one.name)).toEqual(["R2", "R2", "R1"]);
  });

  it("are kept once where nothing has changed in between", async () => {
    const { desk, first, second } = await twoPlans();
    for (let k = 0; k < 3; k += 1) {
      await desk.openSlot(first);
      await desk.openSlot(second);
    }
    expect(await desk.statesOf(first)).toHaveLength(1);
  });
});
