import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../src/check/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { Ascent } from "../../../src/solver/bound/ascent.ts";
import { RouteBound } from "../../../src/solver/bound/bound.ts";
import { crewTimeBound } from "../../../src/solver/bound/crewtime.ts";
import { Exact } from "../../../src/solver/bound/exact.ts";
import { routeClasses } from "../../../src/solver/bound/routes.ts";
import { greedyDay } from "../../../src/solver/greedy.ts";
import { packRun } from "../../../src/solver/index.ts";
import { scheduleOf } from "../../../src/solver/network/placing.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { randomPlan } from "../../properties/randomPlan.ts";

/**
 * The bounds held to days that are really there, on small random plans, each stopped after so many turns. `proof.hunt` does the same for minutes and with
 * another solver. Sums say how near a bound comes: one that is always far off would be above every day as well.
 */

interface Found {
  readonly plan: Plan;
  /** Of the best day that a short search or the exact search finds. */
  readonly worth: number;
  readonly mustLeftOut: number;
}

function packed(plan: Plan): Found {
  const run = packRun(plan, { seed: 1, iterations: 150, clock: () => 0 });
  while (run.step(1)) continue;
  const { worth, mustLeftOut, breaches } = judgeFor(plan)(run.best()).score;
  expect(breaches, plan.title).toBe(0);
  return { plan, worth, mustLeftOut };
}

/** What `bound` says at last; never less than `worth` on the way there, and never more than it said before. */
function watched(bound: { readonly worth: number; run: RunOf }, worth: number, turns: number): number {
  const going = bound.run(() => -1);
  let said = Infinity;
  for (let turn = 0; turn < turns && going.next().done !== true; turn += 1) {
    expect(bound.worth).toBeGreaterThanOrEqual(worth);
    expect(bound.worth).toBeLessThanOrEqual(said);
    said = bound.worth;
  }
  expect(bound.worth).toBeGreaterThanOrEqual(worth);
  return bound.worth;
}

type RunOf = (enough: () => number) => Generator<void>;

/** What the three bounds say of a plan of which a day with every must-do task is known. */
function boundsOf({ plan, worth }: Found): { crewTime: number; routes: number; prices: number | null } {
  const problem = compile(plan);
  const classes = routeClasses(problem);
  const crewTime = crewTimeBound(problem, classes, true);
  expect(crewTime, plan.title).toBeGreaterThanOrEqual(worth);
  const routes = new RouteBound(problem, true);
  routes.learn(greedyDay(problem).board);
  const prices = new Ascent(problem, true, classes);
  return {
    crewTime,
    routes: Math.min(crewTime, watched(routes, worth, 60)),
    prices: prices.usable ? Math.min(crewTime, watched(prices, worth, 200)) : null,
  };
}

const sum = (list: readonly number[]): number => list.reduce((total, one) => total + one, 0);

describe("the exact search", () => {
  it("finds days that the judge finds no breach in, and says proved of none that a search betters: 28 plans", () => {
    let proved = 0;
    let bettered = 0;
    for (let k = 0; k < 28; k += 1) {
      const plan = randomPlan(7100 + k, {
        tasks: 4 + (k % 4),
        crew: 1 + (k % 3),
        evas: 1 + (k % 2),
        places: 2 + (k % 4),
        features: (k % 4) / 4,
      });
      const searched = packed(plan);
      const problem = compile(plan);
      const from = greedyDay(problem).board;
      const exact = new Exact(problem);
      const going = exact.run(from);
      for (let turn = 0; turn < 400 && going.next().done !== true; turn += 1) continue;
      const best = exact.found ? exact.best : from;
      const { score } = judgeFor(plan)(scheduleOf(best));
      expect([score.breaches, score.worth, score.mustLeftOut], plan.title).toEqual([
        0,
        best.worth,
        best.mustOut,
      ]);
      const isWorse =
        score.mustLeftOut > searched.mustLeftOut ||
        (score.mustLeftOut === searched.mustLeftOut && score.worth < searched.worth);
      if (exact.proved) expect(isWorse, plan.title).toBe(false);
      proved += exact.proved ? 1 : 0;
      bettered += exact.found ? 1 : 0;
    }
    expect(proved).toBeGreaterThanOrEqual(23);
    expect(bettered).toBeGreaterThanOrEqual(9);
  });
});

describe("the bounds on worth", () => {
  it("are never below a day that is there, never rise, and come as near as they did: 24 plans", () => {
    const said = Array.from({ length: 24 }, (_, k) =>
      packed(
        randomPlan(7300 + k, {
          tasks: 9 + (k % 4),
          crew: 1 + (k % 2),
          evas: 1 + (k % 3 === 2 ? 1 : 0),
          places: 4 + (k % 3),
          features: (k % 3) * 0.12,
        }),
      ),
    )
      .filter(({ mustLeftOut }) => mustLeftOut === 0)
      .map((one) => ({ ...one, ...boundsOf(one) }));
    expect(said.length).toBe(23);
    // The worth of these days is 5424 in all, the greatest that the bounds may come to what they came to when this was written: nearer is better.
    expect(sum(said.map(({ worth }) => worth))).toBeGreaterThanOrEqual(5424);
    expect(sum(said.map(({ crewTime }) => crewTime))).toBeLessThanOrEqual(6353);
    expect(sum(said.map(({ routes }) => routes))).toBeLessThanOrEqual(6008);
    expect(sum(said.map(({ prices }) => prices ?? Infinity))).toBeLessThanOrEqual(6128);
  });
});
