import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type RouteClass, routeClasses } from "../../../src/solver/bound/routes.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { KINDS, type Problem } from "../../../src/solver/problem/problem.ts";
import { randomPlan } from "../../properties/randomPlan.ts";
import { readyPlan } from "../../readyplan.ts";

/** Detours as plainly as can be: every activity that can stand on the route may be done on the way from any other to any other. */
function overActivities(
  { activity, count }: RouteClass,
  { beginsAt, endsAt, lander, places }: Problem,
  own: (a: number) => number,
  leg: (cell: number) => number,
): number[] {
  const size = count + 1;
  const ends = [...Array.from(activity, (a) => endsAt[a]!), lander];
  const begins = [...Array.from(activity, (a) => beginsAt[a]!), lander];
  const best = Array.from({ length: size * size }, (_, at) =>
    leg(ends[Math.floor(at / size)]! * places + begins[at % size]!),
  );
  for (let k = 0; k < count; k += 1)
    for (let i = 0; i < size; i += 1)
      for (let j = 0; j < size; j += 1)
        best[i * size + j] = Math.min(
          best[i * size + j]!,
          best[i * size + k]! + own(activity[k]!) + best[k * size + j]!,
        );
  return best;
}

function expectDetours(problem: Problem): void {
  const { legS, legM, lengthS, innerM, restful, draws, routes } = problem;
  for (const one of routeClasses(problem)) {
    const r = one.routes[0]!;
    const times = overActivities(
      one,
      problem,
      (a) => lengthS[a]!,
      (cell) => legS[r]![cell]!,
    );
    expect([...one.legS]).toEqual(times);
    for (const sum of one.sums) {
      const kind = [...Array(KINDS).keys()].find((k) =>
        one.activity.every((a, n) => sum.node[n] === draws.task[(a * routes + r) * KINDS + k]),
      );
      const plain = {
        distance: () =>
          overActivities(
            one,
            problem,
            (a) => innerM[a]!,
            (cell) => legM[cell]!,
          ),
        work: () =>
          overActivities(
            one,
            problem,
            (a) => (restful[a] === 1 ? 0 : lengthS[a]!),
            (cell) => legS[r]![cell]!,
          ),
        draws: () =>
          overActivities(
            one,
            problem,
            (a) => draws.task[(a * routes + r) * KINDS + kind!]!,
            (cell) => draws.leg[r]![cell * KINDS + kind!]!,
          ),
      }[sum.of]();
      plain.forEach((cost, cell) => expect(sum.leg[cell]).toBeCloseTo(cost, 6));
    }
  }
}

describe("the cheapest way between two activities of a route, by places", () => {
  it("is what it is when every other activity is tried on the way, on plans with carries, given ways and limits", () => {
    fc.assert(
      fc.property(fc.nat(10_000), (seed) => {
        const plan = randomPlan(seed, { tasks: 9, crew: 2, evas: 2, places: 4, features: 0.5 });
        expectDetours(compile(plan));
      }),
      { numRuns: 40 },
    );
  });

  it("is so on the demo", () => {
    expectDetours(compile(readyPlan("demo")));
  });
});
