import { describe, expect, it } from "vitest";
import { check, judgeFor } from "../../src/check/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { breachesOf } from "../../src/engine/breaches.ts";
import { gridded } from "../../src/solver/gridded.ts";
import { benchReasons, greedy, packRun, whyRun } from "../../src/solver/index.ts";
import { mend } from "../solver/mended.ts";
import { lateTableRun } from "../../src/solver/question/late/index.ts";
import { minutePlan } from "../solver/minutePlan.ts";
import { bestOfAll } from "../solver/reference/everyDay.ts";
import { jolt } from "./jolt.ts";
import { randomPlan } from "./randomPlan.ts";
import { lateSchedule } from "../solver/question/late/obeyed.ts";

/** What the maker puts down lies on the plan's grid of starts, and the grid costs no more than it must. */

const still = (): number => 0;

/** The same plan on another grid. */
function onGrid(plan: Plan, startGridS: number): Plan {
  return { ...plan, rules: { ...plan.rules, startGridS } };
}

function plans(from: number, count: number): { seed: number; plan: Plan }[] {
  return Array.from({ length: count }, (_, k) => {
    const seed = from + k;
    const shape = {
      tasks: 3 + (seed % 8),
      crew: 1 + (seed % 3),
      evas: 1 + (seed % 2),
      places: 2 + (seed % 6),
      features: (seed % 4) / 3,
    };
    return { seed, plan: onGrid(randomPlan(seed, shape), [60, 300][seed % 2]!) };
  });
}

function packed(plan: Plan, seed: number, iterations: number, from?: Schedule): Schedule {
  const run = packRun(plan, { seed, iterations, clock: still, from });
  while (run.step(1)) continue;
  return run.best();
}

/** Tasks that begin off the grid though they are not pinned there and `before` has them elsewhere. */
function strays(plan: Plan, schedule: Schedule, before: Schedule = { placements: [] }): string[] {
  const was = new Map(before.placements.map((one) => [one.task, one.startS]));
  return schedule.placements.flatMap(({ task, startS }) => {
    const pinnedS = plan.tasks.find((one) => one.id === task)!.pin?.startS;
    const free = startS % plan.rules.startGridS !== 0 && startS !== pinnedS && startS !== was.get(task);
    return free ? [task] : [];
  });
}

describe("every start that is put down", () => {
  it("lies on the grid when a day is packed, from nothing or from another day, or filled greedily", () => {
    let placed = 0;
    let offTheSecond = 0;
    for (const { seed, plan } of plans(30_000, 150)) {
      const schedule = packed(plan, seed, 20);
      const toTheSecond = packed(onGrid(plan, 1), seed, 20);
      offTheSecond += strays(plan, toTheSecond).length;
      placed += schedule.placements.length;
      expect({ seed, strays: strays(plan, schedule) }).toEqual({ seed, strays: [] });
      expect({ seed, strays: strays(plan, greedy(plan)) }).toEqual({ seed, strays: [] });
      const on = packed(plan, seed, 4, toTheSecond);
      expect({ seed, strays: strays(plan, on, toTheSecond) }).toEqual({ seed, strays: [] });
      const { breaches, mustLeftOut, worth } = check(plan, on).score;
      const before = check(plan, toTheSecond).score;
      expect({ seed, breaches }).toEqual({ seed, breaches: 0 });
      expect(mustLeftOut).toBeLessThanOrEqual(before.mustLeftOut);
      if (mustLeftOut === before.mustLeftOut) expect(worth).toBeGreaterThanOrEqual(before.worth);
    }
    expect(placed).toBeGreaterThan(400);
    // Without a grid most starts would lie beside it.
    expect(offTheSecond).toBeGreaterThan(300);
  });

  it("lies on the grid or where it was when a day is mended, and where a bench task is offered a place", () => {
    let mended = 0;
    let offered = 0;
    for (const { seed, plan } of plans(31_000, 80)) {
      const broken = jolt(plan, packed(plan, seed, 8), seed);
      const { schedule, changes } = mend(plan, broken, { seed, clock: still, iterations: 3 });
      mended += changes.length;
      expect({ seed, strays: strays(plan, schedule, broken) }).toEqual({ seed, strays: [] });
      const fewer = { placements: schedule.placements.slice(1) };
      for (const { task, fitsAt } of benchReasons(plan, fewer)) {
        if (!fitsAt) continue;
        offered += 1;
        const there = { placements: [{ task, ...fitsAt, crew: [...fitsAt.crew] }] };
        expect({ seed, strays: strays(plan, there) }).toEqual({ seed, strays: [] });
      }
    }
    expect(mended).toBeGreaterThan(60);
    expect(offered).toBeGreaterThan(20);
  });

  it("lies on the grid or where it was when something is given up or dropped", () => {
    let relaxed = 0;
    let moves = 0;
    for (const { seed, plan } of plans(32_000, 24)) {
      const day = packed(plan, seed, 20);
      const left = plan.tasks.find(({ id }) => !day.placements.some((one) => one.task === id));
      if (left) {
        const run = whyRun(plan, day, left.id, { seed, clock: still, iterations: 6 });
        while (run.step(1)) continue;
        for (const { schedule } of run.report().relaxations) {
          relaxed += 1;
          expect({ seed, strays: strays(plan, schedule, day) }).toEqual({ seed, strays: [] });
        }
      }
      const lateTable = lateTableRun(plan, day, { minutes: [7, 23], clock: still });
      while (lateTable.step(1)) continue;
      for (const { rows } of lateTable.report().evas)
        for (const { late, early } of rows) {
          for (const cell of late) {
            moves += cell.moves.length;
            const after = lateSchedule(day, cell);
            expect({ seed, strays: strays(plan, after, day) }).toEqual({ seed, strays: [] });
          }
          for (const { fits } of early)
            for (const { startS } of fits) expect(startS % plan.rules.startGridS).toBe(0);
        }
    }
    expect(relaxed).toBeGreaterThan(10);
    expect(moves).toBeGreaterThan(20);
  });
});

/** Short days in steps of four minutes, whose grid of starts is another one. */
function tiny(seed: number, startGridS: number, tasks = 4, steps = 14): Plan {
  const plan = minutePlan(seed, { gridS: 240, tasks, steps, rules: false });
  const valued = plan.tasks.map((task, i) => ({ ...task, worth: 3 + ((seed * 7 + i * 11) % 17) }));
  return onGrid({ ...plan, tasks: valued }, startGridS);
}

/** What the search reaches and proves to be the best. */
function proved(plan: Plan): { mustLeftOut: number; worth: number; stopped: string | null } {
  const run = packRun(plan, { seed: 1, iterations: 400, proveSeconds: 400, clock: still });
  while (run.step(1)) continue;
  const { breaches, mustLeftOut, worth } = check(plan, run.best()).score;
  expect(breaches).toBe(0);
  return { mustLeftOut, worth, stopped: run.progress().stopped };
}

describe("the best day on a grid", () => {
  it("is that of all days with every start on it, tried one by one", () => {
    let dearer = 0;
    for (let seed = 1; seed <= 24; seed += 1) {
      const plan = tiny(seed, [180, 300, 420][seed % 3]!, 3, 9);
      const { stopped, ...found } = proved(plan);
      expect(["proved", "all placed"], `seed ${seed}`).toContain(stopped);
      expect({ seed, ...found }).toEqual({ seed, ...bestOfAll(plan, plan.rules.startGridS) });
      if (found.worth < proved(onGrid(plan, 1)).worth) dearer += 1;
    }
    // A grid that never costs anything would show nothing.
    expect(dearer).toBeGreaterThan(2);
  });

  it("is no worse on a finer grid that divides the coarser one", () => {
    let better = 0;
    for (let seed = 100; seed < 160; seed += 1) {
      const steps = [1, 60, 180, 360, 720].map((gridS) => proved(tiny(seed, gridS)));
      steps.slice(1).forEach((coarse, k) => {
        const fine = steps[k]!;
        expect(fine.mustLeftOut, `seed ${seed}`).toBeLessThanOrEqual(coarse.mustLeftOut);
        if (fine.mustLeftOut === coarse.mustLeftOut)
          expect(fine.worth, `seed ${seed}`).toBeGreaterThanOrEqual(coarse.worth);
        if (fine.worth > coarse.worth) better += 1;
      });
    }
    expect(better).toBeGreaterThan(10);
  });
});

describe("a day put on the grid", () => {
  /** Tasks of each crew member in the order of their starts. */
  const orderOf = (plan: Plan, { placements }: Schedule): string[] =>
    plan.crew.map(({ id }) =>
      placements
        .filter((one) => one.crew.includes(id))
        .toSorted((a, b) => a.startS - b.startS)
        .map((one) => one.task)
        .join(" "),
    );

  it("keeps tasks, crew, order, pins and every rule, goes back by less than a step, and tells what is left", () => {
    let moved = 0;
    let left = 0;
    for (const { seed, plan } of plans(33_000, 150)) {
      const day = packed(onGrid(plan, 1), seed, 20);
      const judge = judgeFor(plan);
      const made = gridded(plan, day, (one) => breachesOf(judge(one)));
      const { startGridS } = plan.rules;
      expect(made.schedule.placements.map(({ task, eva, crew }) => ({ task, eva, crew }))).toEqual(
        day.placements.map(({ task, eva, crew }) => ({ task, eva, crew })),
      );
      expect(orderOf(plan, made.schedule)).toEqual(orderOf(plan, day));
      expect({ seed, breaches: check(plan, made.schedule).score.breaches }).toEqual({ seed, breaches: 0 });
      day.placements.forEach((one, k) => {
        const startS = made.schedule.placements[k]!.startS;
        expect(startS).toBeGreaterThan(one.startS - startGridS);
        const told = made.moved.find(({ task }) => task === one.task)?.byS ?? 0;
        expect(told).toBe(startS - one.startS);
        const stays = made.left.find(({ task }) => task === one.task);
        expect(startS % startGridS === 0).toBe(stays === undefined);
        const pinnedS = plan.tasks.find(({ id }) => id === one.task)!.pin?.startS;
        if (stays) expect(stays.why).toBe(pinnedS === undefined ? "no room" : "pinned");
        if (pinnedS !== undefined) expect(startS).toBe(pinnedS);
      });
      moved += made.moved.length;
      left += made.left.length;
      expect(gridded(plan, made.schedule, (one) => breachesOf(judge(one))).moved).toEqual([]);
    }
    expect(moved).toBeGreaterThan(300);
    expect(left).toBeGreaterThan(0);
    expect(left).toBeLessThan(moved / 4);
  });

  it("breaks nothing that was not broken, and nothing by more", () => {
    let onIt = 0;
    let broken = 0;
    for (const { seed, plan } of plans(34_000, 80)) {
      const day = jolt(plan, packed(onGrid(plan, 1), seed, 8), seed);
      const judge = judgeFor(plan);
      const before = breachesOf(judge(day));
      const { schedule, moved } = gridded(plan, day, (one) => breachesOf(judge(one)));
      const worse = [...breachesOf(judge(schedule))].filter(([key, by]) => by > (before.get(key) ?? -1));
      expect({ seed, worse }).toEqual({ seed, worse: [] });
      if (before.size === 0) continue;
      broken += 1;
      onIt += moved.length;
    }
    expect(broken).toBeGreaterThan(30);
    expect(onIt).toBeGreaterThan(40);
  });
});
