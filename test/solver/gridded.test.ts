import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { breachesOf } from "../../src/engine/breaches.ts";
import { gridded } from "../../src/solver/gridded.ts";
import { benchReasons, greedy, whyRun } from "../../src/solver/index.ts";
import { at, eva, task, tinyPlan, type TaskInput, type TinyParts } from "../check/tinyPlan.ts";

/**
 * Starts put on whole minutes, by hand. Airlock work takes 600 s, the way to a 300 s, from a to b 300 s, work 600 s: work at a from
 * 930 (egress at 30) to 1530, work at b from 1830.
 */
function day(parts: TinyParts = {}, one: Partial<TaskInput> = {}, two: Partial<TaskInput> = {}): Plan {
  return tinyPlan({
    tasks: [task("one", "a", one), task("two", "b", two)],
    placements: [at("one", 930), at("two", 1830)],
    ...parts,
    rules: { startGridS: 60, ...parts.rules },
  });
}

/** Starts in the order of the tasks, what moved and what is left. */
function put(plan: Plan) {
  const { schedule, moved, left } = gridded(plan, plan.schedule, (one) => breachesOf(check(plan, one)));
  const { breaches } = check(plan, schedule).score;
  return { starts: schedule.placements.map(({ startS }) => startS), moved, left, breaches };
}

describe("starts put on whole minutes", () => {
  it("go back to the minute before where that holds: 930 to 900, and 1830 to 900 + 600 + 300", () => {
    expect(put(day())).toEqual({
      starts: [900, 1800],
      moved: [
        { task: "one", byS: -30 },
        { task: "two", byS: -30 },
      ],
      left: [],
      breaches: 0,
    });
  });

  it("are pushed on where it does not: egress from 30 on makes it 960, and 960 + 900 for what follows", () => {
    const late = day({ evas: [eva("eva-1", { earliestEgressS: 30 })] });
    expect(put(late)).toMatchObject({ starts: [960, 1860], left: [], breaches: 0 });
  });

  it("keep a pause: two began 600 s after it could, and still does to the minute", () => {
    const paused = day({ placements: [at("one", 930), at("two", 2430)] });
    expect(put(paused)).toMatchObject({ starts: [900, 2400], left: [], breaches: 0 });
  });

  it("keep a rest that the flight rules ask for: 600 s after at most 3000 s of work", () => {
    // Work and walking from egress at 30 to 1830, a rest of exactly 600 s, then 600 of work, 600 home and 600 of airlock work: 3600 s
    // without the rest. One at 900 is at b at 1800, and two may start at 2400.
    const rules = { work: { longestS: 3000, restS: 600 } };
    const placements = [at("one", 930), at("two", 2430)];
    const rested = day({ rules, placements });
    expect(check(rested, rested.schedule).score.breaches).toBe(0);
    expect(put(rested)).toMatchObject({ starts: [900, 2400], left: [], breaches: 0 });
    // With egress from 30 on one is at 960, and two a rest later, at 960 + 600 + 300 + 600.
    const pushed = day({ rules, placements, evas: [eva("eva-1", { earliestEgressS: 30 })] });
    expect(put(pushed)).toMatchObject({ starts: [960, 2460], left: [], breaches: 0 });
  });

  it("leave what has no minute: a window that only its own second keeps", () => {
    const narrow = day({}, {}, { windows: [{ startS: 1830, endS: 2430 }] });
    expect(put(narrow)).toEqual({
      starts: [900, 1830],
      moved: [{ task: "one", byS: -30 }],
      left: [{ task: "two", why: "no room" }],
      breaches: 0,
    });
  });

  it("leave pins, and what is on a minute already", () => {
    const pinned = day({}, { pin: { startS: 930 } });
    // Two could begin at 1830 at the earliest: 1860.
    expect(put(pinned)).toEqual({
      starts: [930, 1860],
      moved: [{ task: "two", byS: 30 }],
      left: [{ task: "one", why: "pinned" }],
      breaches: 0,
    });
    const whole = day({ placements: [at("one", 900), at("two", 1860)] });
    expect(put(whole)).toMatchObject({ starts: [900, 1860], moved: [], left: [] });
  });

  it("in a broken day go each to the minute beside it that breaks least, and nothing by more", () => {
    // Two begins 60 s before the way is walked. One at 900 is at b at 1800, so that two at 1800 holds.
    const early = day({ placements: [at("one", 930), at("two", 1770)] });
    expect(check(early, early.schedule).score.breaches).toBe(1);
    expect(put(early)).toMatchObject({ starts: [900, 1800], left: [], breaches: 0 });
    // Far too early it stays broken: at 1260 by 10 s less than at 1250. One would break egress at 900, and at 960 leave two less.
    const far = day({
      placements: [at("one", 930), at("two", 1250)],
      evas: [eva("eva-1", { earliestEgressS: 30 })],
    });
    expect(put(far)).toMatchObject({
      starts: [930, 1260],
      left: [{ task: "one", why: "no room" }],
      breaches: 1,
    });
  });
});

describe("a task that nothing but the grid keeps off the day", () => {
  /**
   * Both at a, 630 s of work each. To the second: 600 of airlock work, 300 out, 2 times 630, 300 home, 600: 3060 s. On whole minutes the
   * second waits until 660 s after the first: 3090 s. The EVA may last 3070.
   */
  const tasks = ["one", "two"].map((id) => task(id, "a", { duration: { likelyS: 630 } }));
  const tight = (startGridS: number): Plan =>
    tinyPlan({
      tasks,
      placements: [at("one", 900, ["ev1"])],
      evas: [eva("eva-1", { crew: ["ev1"], longestS: 3070 })],
      rules: { startGridS },
    });

  it("is packed on a grid of 30 s and not on whole minutes, and the bench says why", () => {
    const placed = (startGridS: number): number => greedy(tight(startGridS)).placements.length;
    expect([placed(1), placed(30), placed(60)]).toEqual([2, 2, 1]);
    const plan = tight(60);
    expect(benchReasons(plan, plan.schedule)).toMatchObject([
      {
        task: "two",
        sentence:
          "It fits with starts to the second, not with starts on whole minutes: make the plan's grid of starts finer.",
        fitsAt: null,
      },
    ]);
    expect(benchReasons(tight(30), tight(30).schedule)).toMatchObject([{ fitsAt: { startS: 1530 } }]);
  });

  it("has a conflict that says on what starts", () => {
    const plan = tight(60);
    const run = whyRun(plan, plan.schedule, "two", { seed: 1, clock: () => 0, iterations: 2 });
    while (run.step(1)) continue;
    expect(run.report().state).toBe("conflict");
    expect(run.report().conflict?.sentence).toContain("in the order as it is with starts on whole minutes");
  });

  it("can never go on where its window holds no whole minute, unless it is pinned there", () => {
    const narrow = (pin: object): Plan =>
      tinyPlan({
        tasks: [task("one", "a", { windows: [{ startS: 1830, endS: 2430 }], ...pin })],
        rules: { startGridS: 60 },
      });
    const free = narrow({});
    expect(greedy(free).placements).toEqual([]);
    expect(benchReasons(free, free.schedule)[0]?.sentence).toMatch(
      /^Its windows leave it a start, but none on whole minutes/,
    );
    expect(greedy(narrow({ pin: { startS: 1830 } })).placements).toMatchObject([{ startS: 1830 }]);
  });
});
