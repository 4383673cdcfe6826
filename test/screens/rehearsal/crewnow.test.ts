import { describe, expect, it } from "vitest";
import { judgeFor, recallOf } from "../../../src/check/index.ts";
import { printingRun } from "../../../src/exchange/index.ts";
import { printedDay } from "../../../src/exchange/paper/leaving/printedday.ts";
import { instant } from "../../../src/kernel/index.ts";
import { type Call, callWords, rehearsalFrom, standingOf } from "../../../src/rehearsal/index.ts";
import type { Rehearsed } from "../../../src/session/index.ts";
import { walksOf } from "../../../src/terrain/index.ts";
import { lateWords } from "../../../src/screens/rehearsal/callwords.ts";
import { crewNow } from "../../../src/screens/rehearsal/crewnow.ts";
import { at, task, tinyPlan } from "../../check/tinyPlan.ts";

// a is 300 s from the lander, b 300 s farther; egress work 600 s.
const plan = tinyPlan({
  tasks: [task("x", "a"), task("y", "b"), task("w", "a")],
  placements: [at("x", 3000), at("y", 4200), at("w", 3000, ["ev2"])],
});
const planned = judgeFor(plan)(plan.schedule);

function day(nowS: number, ...calls: object[]): Rehearsed {
  const rehearsal = {
    ...rehearsalFrom(0, 1),
    nowS: instant(nowS),
    calls: calls.map((call) => call as Call),
  };
  const standing = standingOf(plan, rehearsal, walksOf(plan));
  const verdict = judgeFor(standing.plan)(standing.plan.schedule);
  const recall = recallOf(standing.plan, standing.plan.schedule, "eva-1", nowS);
  return {
    plan,
    rehearsal,
    planned,
    standing,
    now: standing.plan,
    verdict,
    reads: [],
    recalls: recall ? [recall] : [],
  };
}

/** Where each is with the moments of leaving that the judge has tested for the day as it goes on. */
const tested = (of: Rehearsed, member: string) => crewNow(of, member, printedDay(of.now).leaves);

const out = { kind: "out", eva: "eva-1", atS: 2100 };
const began = { kind: "begins", task: "x", atS: 3060 };

describe("a crew member in a rehearsal", () => {
  it("is inside before egress, with the first task to come", () => {
    const now = tested(day(1000), "ev1");
    expect(now).toMatchObject({ eva: null, doing: null, turnBack: null, levels: [], lateS: 0 });
    // What they go out with can be read there.
    expect(now.outgoing.map(({ track, nowLeft }) => [track.eva, track.stock - nowLeft])).toEqual(
      ["oxygen", "co2", "water", "battery"].map(() => ["eva-1", 0]),
    );
    // The way from the lander takes 300 s, and egress work ends just in time for it.
    expect(now.next).toMatchObject({ task: { id: "x" }, leave: { kind: "at once", atS: 2700 } });
  });

  it("has a task under way, a time to leave for the next, a way home and what is left", () => {
    const now = tested(day(3100, out, began), "ev1");
    expect(now.doing?.task.id).toBe("x");
    expect(now.lateS).toBe(60);
    // x takes 600 s from 3060, b is 300 s on: y could begin at 3960 and waits for 4200, so leaving at 3900 will do.
    expect(now.next).toMatchObject({
      task: { id: "y" },
      placement: { startS: 4200 },
      leave: { kind: "by", atS: 3900 },
    });
    expect(now.turnBack).toMatchObject({ from: "a", to: "a", walkbackS: planned.walkbackS["x"] });
    expect(now.levels.map(({ track }) => track.consumable).toSorted()).toEqual([
      "battery",
      "co2",
      "oxygen",
      "water",
    ]);
    for (const { track, nowLeft } of now.levels) expect(nowLeft).toBeLessThan(track.stock);
  });

  it("is as late as the next task will be, where what is under way holds it up", () => {
    // x is 1500 s longer and ends at 5160, b is 300 s on: y begins at 5460 instead of 4200.
    const held = { kind: "longer", task: "x", byS: 1500, atS: 3100 };
    expect(tested(day(3100, out, began, held), "ev1").lateS).toBe(1260);
  });

  it("has no time to leave that the judge has not tested on the day as it goes on", () => {
    const now = day(3100, out, began);
    expect(crewNow(now, "ev1", null).next?.leave).toEqual({ kind: "untested" });
    // Asked when it had passed, the judge says nothing of it.
    const run = printingRun(now.now, { fromS: 3901, clock: () => 0 });
    while (run.step(1));
    expect(crewNow(now, "ev1", run.day().leaves).next?.leave).toEqual({ kind: "gone" });
  });

  it("goes home when nothing is left to do", () => {
    const now = tested(
      day(3700, out, { kind: "begins", task: "w", atS: 3000 }, { kind: "ends", task: "w", atS: 3600 }),
      "ev2",
    );
    expect(now).toMatchObject({ homeward: true, doing: null, next: null });
  });
});

describe("words of a rehearsal", () => {
  it("count a begun minute of being late whole, and one of being early not at all", () => {
    expect([0, 1, 61, 4380, -59, -60, -119].map(lateWords)).toEqual([
      "on time",
      "1 min late",
      "2 min late",
      "1:13 late",
      "on time",
      "1 min early",
      "1 min early",
    ]);
  });

  it("say what was called by the plan's own numbers and names", () => {
    const words = (call: object): string => callWords(plan, { atS: 0, ...call } as unknown as Call);
    expect(words({ kind: "begins", task: "x" })).toBe("1 x begins.");
    expect(words({ kind: "longer", task: "x", byS: -300 })).toBe("1 x takes 5 min less.");
    expect(words({ kind: "left-out", task: "gone" })).toBe("gone is given up.");
  });
});
