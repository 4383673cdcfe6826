import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { parseText, type Plan } from "../../../src/plan/index.ts";
import { clashWords, renumberedWords } from "../../../src/words/index.ts";
import { browserArchive } from "../../../src/session/shelf/archive.ts";
import { sessionWith, freshShelf } from "../bench.ts";

function planIn(text: string): Plan {
  const read = parseText(text);
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

const worth = (plan: Plan, id: string, to: number): Plan => ({
  ...plan,
  tasks: plan.tasks.map((task) => (task.id === id ? { ...task, worth: to } : task)),
});

/** A desk whose plan was saved to a file, and what a colleague made of it; the desk's own went on since. */
async function sentAway(change: (plan: Plan) => Plan) {
  const { session, clock } = sessionWith({ archive: browserArchive(freshShelf()) });
  await session.saveNow();
  await session.keepSent();
  const theirs = change(planIn(session.saveText()));
  clock.moveOn(60_000);
  return { session, theirs };
}

describe("a plan file that was sent away and comes back", () => {
  it("is merged as one step, with what it was when it left as what both come from", async () => {
    const { session, theirs } = await sentAway((plan) => worth(plan, "two", 55));
    session.edit("Worth", (plan) => ({ tasks: worth(plan, "one", 44).tasks }));
    const before = session.state.getState().plan;
    const offer = await session.offerMerge(theirs);
    expect(offer?.from.kind).toBe("sent");
    expect(offer?.merged.clashes).toEqual([]);
    expect(await session.merge(offer!, new Set())).toMatchObject({ ok: true });
    expect(session.state.getState().plan.tasks.map((task) => task.worth)).toEqual([44, 55, 10]);
    expect((await session.statesOf(session.state.getState().slot))[0]!.kind).toBe("merge");
    expect(session.undo()).toBe("Merge A small day");
    expect(session.state.getState().plan).toEqual(before);
  });

  it("clashes where both changed one thing: each is left or taken, and said side by side", async () => {
    const { session, theirs } = await sentAway((plan) => ({ ...worth(plan, "one", 55), title: "Theirs" }));
    session.edit("Worth", (plan) => ({ tasks: worth(plan, "one", 44).tasks, title: "Mine" }));
    const offer = (await session.offerMerge(theirs))!;
    expect(offer.merged.clashes.map((clash) => clashWords(offer, clash))).toEqual([
      { about: "Task 1 Task one", mine: "Worth: 10 to 44.", theirs: "Worth: 10 to 55." },
      { about: "Plan", mine: "Title: “A small day” to “Mine”.", theirs: "Title: “A small day” to “Theirs”." },
    ]);
    await session.merge(offer, new Set([0]));
    const { plan } = session.state.getState();
    expect([plan.tasks[0]!.worth, plan.title]).toEqual([55, "Mine"]);
  });

  it("is refused whole where the two do not make a plan, with the fault", async () => {
    // I took the ridge out with its tasks; they put another task there.
    const { session, theirs } = await sentAway((plan) => ({
      ...plan,
      tasks: [...plan.tasks, { ...plan.tasks[0]!, id: "four", name: "Task four", number: "9" }],
    }));
    session.edit("Take the ridge out", (plan) => ({
      tasks: [],
      schedule: { placements: [] },
      site: { ...plan.site, places: plan.site.places.slice(0, 1) },
    }));
    const { plan } = session.state.getState();
    const offer = (await session.offerMerge(theirs))!;
    const made = await session.merge(offer, new Set());
    expect(made).toMatchObject({ ok: false, error: [{ message: expect.stringMatching(/ridge/) }] });
    expect(session.state.getState().plan).toBe(plan);
  });

  it("keeps what both added apart, under an id and a number of its own, and says whose number changed", async () => {
    // Both make the next new task: the same id and number, but another thing, and theirs is on their day.
    const added = (plan: Plan, name: string): Plan["tasks"] => [
      ...plan.tasks,
      { ...plan.tasks[0]!, id: "task-4", name, number: "4" },
    ];
    const { session, theirs } = await sentAway((plan) => ({
      ...plan,
      tasks: added(plan, "Theirs"),
      schedule: {
        placements: [
          ...plan.schedule.placements,
          { ...plan.schedule.placements[0]!, task: "task-4", startS: instant(20_000) },
        ],
      },
    }));
    session.edit("New task", (plan) => ({ tasks: added(plan, "Mine") }));
    const offer = (await session.offerMerge(theirs))!;
    expect(offer.merged.clashes).toEqual([]);
    const made = await session.merge(offer, new Set());
    expect(made).toMatchObject({ ok: true });
    const { plan } = session.state.getState();
    const mine = plan.tasks.find(({ name }) => name === "Mine")!;
    const their = plan.tasks.find(({ name }) => name === "Theirs")!;
    expect([mine.id, mine.number, their.number]).toEqual(["task-4", "4", "5"]);
    const placed = plan.schedule.placements.filter(({ startS }) => startS === 20_000);
    expect(placed.map(({ task }) => task)).toEqual([their.id]);
    expect(offer.merged.renumbered.map((one) => renumberedWords(offer.merged.plan, one))).toEqual([
      "Theirs of theirs, there number 4, gets number 5: 4 is Mine.",
    ]);
  });

  it("is not merged into a plan that has changed since it was looked at", async () => {
    const { session, theirs } = await sentAway((plan) => worth(plan, "two", 55));
    const offer = (await session.offerMerge(theirs))!;
    session.edit("Rename", () => ({ title: "Changed since" }));
    expect(await session.merge(offer, new Set())).toMatchObject({ ok: false });
    expect(session.state.getState().plan.title).toBe("Changed since");
  });

  it("has nothing to be merged with where no state is kept", async () => {
    const { session } = sessionWith({ archive: browserArchive(freshShelf()) });
    expect(await session.offerMerge(session.state.getState().plan)).toBeNull();
  });
});
