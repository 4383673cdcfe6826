import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { random } from "../../../src/kernel/index.ts";
import { Neighbourhood } from "../../../src/solver/project/neighbourhood.ts";
import { Population, POPULATION } from "../../../src/solver/project/population.ts";
import { Portfolio } from "../../../src/solver/project/portfolio.ts";
import { finishOf, type Project } from "../../../src/solver/project/problem.ts";
import { projects } from "./arbitrary.ts";
import { breachesOf } from "./naive.ts";

const some: Project[] = fc.sample(
  projects({ activities: 16, horizon: 60, circles: false, openings: false }),
  {
    numRuns: 25,
    seed: 11,
  },
);

/** Proved optimum, by the learner alone or with the others: those are held to brute force elsewhere. */
function optimum(project: Project): number {
  const search = new Portfolio(project, 1);
  for (let k = 0; k < 20_000 && !search.proved; k += 1) search.iterate();
  expect(search.proved).toBe(true);
  return search.finish;
}

describe("Population", () => {
  it("breeds nothing but sound schedules, by either crossover, and none before the optimum", () => {
    for (const project of some) {
      const least = optimum(project);
      for (const peaks of [0, 1]) {
        const population = Population.of(project, random(5), { ...POPULATION, size: 8, peaks })!;
        for (let k = 0; k < 150; k += 1) population.step();
        const { start, finish, late } = population.best!;
        expect(finish).toBe(finishOf(project, start));
        if (late > 0) continue;
        expect(breachesOf(project, start)).toEqual([]);
        expect(finish).toBeGreaterThanOrEqual(least);
      }
    }
  });
});

describe("Neighbourhood", () => {
  it("gives only sound schedules that finish earlier, however small the portions of effort", () => {
    let improved = 0;
    for (const project of some) {
      let best = oneAfterTheOther(project);
      if (!best) continue;
      const neighbourhood = new Neighbourhood(project, random(3), { free: 6, conflicts: 50 });
      for (let k = 0; k < 300; k += 1) {
        const better = neighbourhood.improve(best, 20);
        if (!better) continue;
        expect(finishOf(project, better)).toBeLessThan(finishOf(project, best));
        expect(breachesOf(project, better)).toEqual([]);
        best = better.slice();
        improved += 1;
      }
    }
    // It did find something: most of these wasteful schedules can be shortened.
    expect(improved).toBeGreaterThan(10);
  });
});

/** A wasteful schedule: each activity starts when all before it have ended; null when that breaks an opening or lag. */
function oneAfterTheOther(project: Project): Int32Array | null {
  const start = new Int32Array(project.activities);
  let at = 0;
  for (let a = 0; a < project.activities; a += 1) {
    for (let e = 0; e < project.lag.length; e += 1) {
      if (project.lagTo[e] === a) at = Math.max(at, start[project.lagFrom[e]!]! + project.lag[e]!);
    }
    start[a] = at;
    at += project.length[a]!;
  }
  return breachesOf(project, start).length === 0 ? start : null;
}
