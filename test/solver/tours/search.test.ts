import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { packRun } from "../../../src/solver/index.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import type { Problem } from "../../../src/solver/problem/problem.ts";
import { groundOf } from "../../../src/solver/tours/ground.ts";
import { TourSearch } from "../../../src/solver/tours/search.ts";
import { Tours } from "../../../src/solver/tours/tours.ts";
import { tourDay } from "./tourDay.ts";

/** The most worth of two tours: every order on the first, and for what that leaves every order on the second. */
function mostWorth(problem: Problem): number {
  const ground = groundOf(problem);
  const best = new Map<number, number>();
  const grow = (order: number[], set: number, worth: number): void => {
    best.set(set, worth);
    for (let a = 0; a < problem.activities; a += 1) {
      if ((set >> a) & 1) continue;
      const tours = new Tours(ground);
      tours.lay(0, [...order, a]);
      let holds = true;
      for (let k = 0; k <= order.length + 2; k += 1) holds &&= tours.earliest[k]! <= tours.latest[k]!;
      if (holds) grow([...order, a], set | (1 << a), worth + problem.worth[a]!);
    }
  };
  grow([], 0, 0);
  let most = 0;
  for (const [one, worth] of best)
    for (const [two, more] of best) if ((one & two) === 0) most = Math.max(most, worth + more);
  return most;
}

function packed(plan: Plan, iterations: number, from?: Plan["schedule"]) {
  const run = packRun(plan, { seed: 1, iterations, clock: () => 0, from });
  while (run.step(1)) continue;
  return { schedule: run.best(), score: check(plan, run.best()).score };
}

describe("the search on tours", () => {
  it("finds what trying every order finds, and the judge finds no breach in it", () => {
    for (const gridS of [1, 60])
      for (let seed = 1; seed <= 12; seed += 1) {
        const plan = tourDay(seed, { tasks: 7, crew: 2, gridS });
        const { score } = packed(plan, 400);
        expect(score, `seed ${seed}`).toMatchObject({ breaches: 0, worth: mostWorth(compile(plan)) });
      }
  });

  it("gives the same day for the same seed and turns", () => {
    const plan = tourDay(5, { tasks: 40, crew: 3 });
    expect(packed(plan, 300).schedule).toEqual(packed(plan, 300).schedule);
  });

  it("holds on to the schedule that it begins with", () => {
    const plan = tourDay(7, { tasks: 40, crew: 3 });
    const good = packed(plan, 3000);
    const again = packed(plan, 1, good.schedule);
    expect(again.score.breaches).toBe(0);
    expect(again.score.worth).toBeGreaterThanOrEqual(good.score.worth);
  });

  it("lets must-do work go before all other", () => {
    for (let seed = 1; seed <= 6; seed += 1) {
      const plan = tourDay(seed, { tasks: 30, crew: 2, must: 6 });
      const alone = { ...plan, tasks: plan.tasks.slice(0, 6) };
      const { score } = packed(plan, 800);
      expect(score.breaches).toBe(0);
      expect(score.mustLeftOut).toBe(packed(alone, 400).score.mustLeftOut);
    }
  });

  it("leaves days alone on which it counts how far all walk", () => {
    const day = tourDay(2, { tasks: 30, crew: 2 });
    for (const limit of ["evaM", "stayM"] as const) {
      const far = { evaM: 1_000_000, stayM: 1_000_000, [limit]: 1500 };
      const distance = { ...day.rules.distance, ...far, level: "breach" as const };
      const { score } = packed({ ...day, rules: { ...day.rules, distance } }, 400);
      expect(score.breaches, limit).toBe(0);
      expect(score.walkM, limit).toBeGreaterThan(1000);
    }
  });

  it("gives a board that is worth what it says", () => {
    const problem = compile(tourDay(3, { tasks: 30, crew: 3 }));
    const search = new TourSearch(problem, 1, null);
    for (let k = 0; k < 200; k += 1) search.iterate(k / 200);
    expect(search.best.worth).toBe(search.bestValue.worth);
    expect(search.best.count).toBeGreaterThan(5);
  });
});
