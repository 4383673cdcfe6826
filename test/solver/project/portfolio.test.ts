import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Portfolio } from "../../../src/solver/project/portfolio.ts";
import { type Project, projectFrom } from "../../../src/solver/project/problem.ts";
import { projects } from "./arbitrary.ts";
import { breachesOf, bruteFinish } from "./naive.ts";

/** Searches until proof; more iterations than any of these tiny projects can need. */
function solved(project: Project, seed = 1, watch: (search: Portfolio) => void = () => undefined): Portfolio {
  const search = new Portfolio(project, seed);
  watch(search);
  for (let k = 0; k < 5000 && !search.proved; k += 1) {
    search.iterate();
    watch(search);
  }
  expect(search.proved).toBe(true);
  return search;
}

function expectOptimum(project: Project): void {
  const optimum = bruteFinish(project);
  const search = solved(project, 1, (step) => {
    // Whatever is claimed on the way holds: the floor is never above the optimum, the finish never below it.
    expect(step.floor).toBeLessThanOrEqual(optimum);
    expect(step.finish).toBeGreaterThanOrEqual(optimum);
  });
  expect(search.finish).toBe(optimum);
  if (search.best) expect(breachesOf(project, search.best)).toEqual([]);
  else expect(search.floor).toBe(Infinity);
}

const open = (to: number) => [{ from: 0, to }];

describe("every tiny project gets its optimum, proved, or is proved to have no schedule", () => {
  it("with least lags", () => {
    fc.assert(
      fc.property(projects({ activities: 5, horizon: 6, circles: false, openings: false }), expectOptimum),
    );
  });
  it("with least and greatest lags in circles", () => {
    const all = projects({ activities: 5, horizon: 6, circles: true, openings: false });
    fc.assert(fc.property(all, expectOptimum), { numRuns: 300 });
  });
  it("with several openings for each activity", () => {
    const all = projects({ activities: 4, horizon: 8, circles: true, openings: true });
    fc.assert(fc.property(all, expectOptimum), { numRuns: 300 });
  });
});

describe("projects whose optimum is plain", () => {
  it("one drill, three holes of 2, 3 and 4: one after the other, 9", () => {
    const project = projectFrom({
      lengths: [2, 3, 4],
      capacities: [1],
      demands: [[1], [1], [1]],
      lags: [],
      openings: [open(20), open(20), open(20)],
    });
    expect(solved(project).finish).toBe(9);
  });

  it("a greatest lag keeps a follower close: 5 + 3, though the resource is free earlier for others", () => {
    // B starts at most 5 after A starts and not before A (5 long) ends, so at exactly 5: finish 8. C (2 long, the
    // same resource) does not fit between them and not beside them: it goes before A or after B, finish 10.
    const project = projectFrom({
      lengths: [5, 3, 2],
      capacities: [1],
      demands: [[1], [1], [1]],
      lags: [
        { from: 0, to: 1, lag: 5 },
        { from: 1, to: 0, lag: -5 },
      ],
      openings: [open(20), open(20), open(20)],
    });
    const search = solved(project);
    expect(search.finish).toBe(10);
    expect(search.best![1]! - search.best![0]!).toBe(5);
  });

  it("two of capacity three cannot share with two more: pairs of demand 2 follow each other", () => {
    // Each needs 2 of 3, so no two overlap: 4 * 2 = 8, though the work alone (4 * 2 * 2 / 3) would allow 6.
    const project = projectFrom({
      lengths: [2, 2, 2, 2],
      capacities: [3],
      demands: [[2], [2], [2], [2]],
      lags: [],
      openings: [open(20), open(20), open(20), open(20)],
    });
    expect(solved(project).finish).toBe(8);
  });

  it("a demand above capacity has no schedule, and neither has a circle of lags that asks for more than it allows", () => {
    const two = { lengths: [2, 2], capacities: [1], openings: [open(9), open(9)] };
    const greedy = projectFrom({ ...two, demands: [[2], [0]], lags: [] });
    const circle = projectFrom({
      ...two,
      demands: [[1], [1]],
      lags: [
        { from: 0, to: 1, lag: 3 },
        { from: 1, to: 0, lag: -2 },
      ],
    });
    for (const project of [greedy, circle]) {
      expect(solved(project).best).toBeNull();
      expect(new Portfolio(project, 1).floor).toBe(Infinity);
    }
  });
});

describe("the search itself", () => {
  const project = fc.sample(projects({ activities: 14, horizon: 40, circles: false, openings: false }), {
    numRuns: 20,
    seed: 7,
  });

  it("gives the same schedule for the same seed and iterations", () => {
    for (const one of project) {
      const runs = [1, 2].map(() => {
        const search = new Portfolio(one, 3);
        for (let k = 0; k < 40; k += 1) search.iterate();
        return [search.finish, search.floor, search.best && [...search.best]];
      });
      expect(runs[0]).toEqual(runs[1]);
    }
  });

  it("keeps what it starts from until something earlier is found", () => {
    for (const one of project) {
      const known = solved(one);
      if (!known.best) continue;
      expect(new Portfolio(one, 1, known.best).finish).toBe(known.finish);
    }
  });

  it("is never worse for one more unit of capacity", () => {
    for (const one of project) {
      const before = solved(one);
      const after = solved({ ...one, capacity: one.capacity.map((count) => count + 1) });
      expect(after.finish).toBeLessThanOrEqual(before.finish);
    }
  });
});
