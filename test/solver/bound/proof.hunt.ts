import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../src/check/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { greedyDay } from "../../../src/solver/greedy.ts";
import { packRun } from "../../../src/solver/index.ts";
import { Ascent } from "../../../src/solver/bound/ascent.ts";
import { RouteBound } from "../../../src/solver/bound/bound.ts";
import { crewTimeBound } from "../../../src/solver/bound/crewtime.ts";
import { Exact } from "../../../src/solver/bound/exact.ts";
import { routeClasses } from "../../../src/solver/bound/routes.ts";
import { eva, task, tinyPlan } from "../../check/tinyPlan.ts";
import { randomPlan } from "../../properties/randomPlan.ts";
import { Chuffed } from "../reference/chuffed.ts";
import { mixedPlan } from "../reference/mixedPlan.ts";
import { optimumOf } from "../reference/model.ts";

/** When the reference solver is taken to hang, ms. */
const LIMIT_MS = 1_200_000;

/** What is proved about worth, held to the best of all days tried one by one and to what long searches find. */

function packed(plan: Plan, iterations: number, proveSeconds = 0) {
  const run = packRun(plan, { seed: 1, iterations, proveSeconds, clock: () => 0 });
  while (run.step(1)) continue;
  const { score } = judgeFor(plan)(run.best());
  return { score, progress: run.progress() };
}

function finish(going: Generator<void>): void {
  while (going.next().done !== true) continue;
}

function randomPlans(count: number): Plan[] {
  return Array.from({ length: count }, (_, k) =>
    randomPlan(4000 + k, {
      tasks: 4 + (k % 9),
      crew: 1 + (k % 3),
      evas: 1 + (k % 2),
      places: 2 + (k % 5),
      features: (k % 4) / 3,
    }),
  );
}

/** The same plan without what the bounds know nothing or little of: windows from egress, groups. */
function withoutWishes(plan: Plan): Plan {
  if (plan.groups.length === 0 && plan.tasks.every(({ pet }) => pet === undefined)) return plan;
  const tasks = plan.tasks.map((task) => {
    const bare = { ...task };
    delete bare.pet;
    return bare;
  });
  return { ...plan, tasks, groups: [] };
}

describe("the bound on worth", () => {
  it("is never below what a search finds with as many must-do tasks, wherever it is stopped", () => {
    let met = 0;
    for (const plan of randomPlans(80)) {
      const { score } = packed(plan, 400);
      const problem = compile(plan);
      if (score.mustLeftOut > 0) continue;
      const bound = new RouteBound(problem, true);
      bound.learn(greedyDay(problem).board);
      const going = bound.run(() => -1);
      for (let turns = 0; turns < 400 && going.next().done !== true; turns += 1)
        expect(bound.worth, plan.title).toBeGreaterThanOrEqual(score.worth);
      expect(bound.worth, plan.title).toBeGreaterThanOrEqual(score.worth);
      expect(crewTimeBound(problem, routeClasses(problem), true), plan.title).toBeGreaterThanOrEqual(
        score.worth,
      );
      if (bound.worth === score.worth) met += 1;
    }
    // A bound that is always far off would pass as well.
    expect(met).toBeGreaterThan(20);
  });
});

describe("the bound by prices", () => {
  it("is never below what a search finds with as many must-do tasks, wherever it is stopped, and often meets it", () => {
    let met = 0;
    let compared = 0;
    const whole = randomPlans(90);
    const plain = whole.map(withoutWishes);
    for (const plan of [...plain, ...whole.filter((one, k) => one !== plain[k])]) {
      const { score } = packed(plan, 400);
      const problem = compile(plan);
      if (score.mustLeftOut > 0) continue;
      const ascent = new Ascent(problem, true, routeClasses(problem));
      if (!ascent.usable) continue;
      compared += plain.includes(plan) ? 1 : 0;
      const going = ascent.run(() => -1);
      for (let turns = 0; turns < 200 && going.next().done !== true; turns += 1)
        expect(ascent.worth, plan.title).toBeGreaterThanOrEqual(score.worth);
      if (plain.includes(plan) && ascent.worth === score.worth) met += 1;
    }
    expect(compared).toBeGreaterThan(50);
    // A bound that is always far off would pass as well.
    expect(met).toBeGreaterThan(15);
  });

  it.each([21, 22, 23, 24, 25, 26, 27, 28, 30, 31])(
    "is never below what a constraint solver proves, with must-do tasks asked for or not: mixed plan %d",
    async (seed) => {
      const plan = mixedPlan(seed);
      const { mustLeftOut, worth } = await optimumOf(plan, new Chuffed(), LIMIT_MS);
      const problem = compile(plan);
      for (const musts of mustLeftOut === 0 ? [true, false] : [false]) {
        const ascent = new Ascent(problem, musts, routeClasses(problem));
        expect(ascent.usable).toBe(true);
        finish(ascent.run(() => -1));
        expect(ascent.worth).toBeGreaterThanOrEqual(worth);
        expect(ascent.worth).toBeLessThan(problem.worth.reduce((sum, one) => sum + one, 0) + 1);
      }
    },
  );

  it("knows the rests that a day of work has to have", () => {
    // Out for at most 12 000 s, 600 s of it in the hatch at either end, tasks of 1000 s at the lander. In stretches of at most 4000 s with rests of
    // 700 s between, 12 000 s hold 2 rests and 10 600 s of work: 1200 s in the hatch and 9 tasks. Without the rule there would be 10.
    const tasks = Array.from({ length: 14 }, (_, k) =>
      task(`t${k}`, "lander", { duration: { likelyS: 1000 }, worth: 7 }),
    );
    const bounded = (level: "breach" | "warning"): number => {
      const plan = tinyPlan({
        tasks,
        evas: [eva("eva-1", { crew: ["ev1"], longestS: 12_000 })],
        rules: { walkback: { level: "warning" }, work: { level, longestS: 4000, restS: 700 } },
      });
      const problem = compile(plan);
      const ascent = new Ascent(problem, true, routeClasses(problem));
      finish(ascent.run(() => -1));
      return ascent.worth;
    };
    expect(bounded("breach")).toBe(9 * 7);
    expect(bounded("warning")).toBe(10 * 7);
  });
});

describe("the exact search", () => {
  it.each([21, 22, 23, 24, 25, 26])(
    "gives what a constraint solver proves, and proves it: mixed plan %d",
    async (seed) => {
      const plan = mixedPlan(seed);
      const { mustLeftOut, worth } = await optimumOf(plan, new Chuffed(), LIMIT_MS);
      const problem = compile(plan);
      const exact = new Exact(problem);
      const from = greedyDay(problem).board;
      finish(exact.run(from));
      const board = exact.found ? exact.best : from;
      expect({ proved: exact.proved, mustLeftOut: board.mustOut, worth: board.worth }).toEqual({
        proved: true,
        mustLeftOut,
        worth,
      });
    },
  );

  it("says optimal only of days that no long search betters", () => {
    let proved = 0;
    for (const plan of randomPlans(40)) {
      const { score, progress } = packed(plan, 200, 1);
      if (progress.stopped !== "proved" && progress.stopped !== "all placed") continue;
      proved += 1;
      expect(progress.bound).toBe(score.worth);
      const longer = packed(plan, 1200);
      expect(longer.score.mustLeftOut, plan.title).toBeGreaterThanOrEqual(score.mustLeftOut);
      if (longer.score.mustLeftOut === score.mustLeftOut)
        expect(longer.score.worth, plan.title).toBeLessThanOrEqual(score.worth);
    }
    expect(proved).toBeGreaterThan(20);
  });
});
