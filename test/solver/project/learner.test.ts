import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LEARNER, Learner } from "../../../src/solver/project/learn/learner.ts";
import { Watches } from "../../../src/solver/project/learn/watches.ts";
import { finishOf, type Project } from "../../../src/solver/project/problem.ts";
import { projects } from "./arbitrary.ts";
import { breachesOf, bruteFinish } from "./naive.ts";

/** Restarts and forgets as often as can be, so that clauses are laid out anew again and again. */
const FORGETFUL = { ...LEARNER, restart: 3, clauses: 10, clausesMore: 5 };

/** The earliest finish, by learning alone; Infinity where it proves that there is no schedule. */
function learned(project: Project, options = LEARNER): number {
  const learner = Learner.of(project, 1000, options);
  let best = Infinity;
  while (learner?.search(null, Infinity) === "found") {
    expect(breachesOf(project, learner.start)).toEqual([]);
    best = finishOf(project, learner.start);
  }
  return best;
}

describe("learning alone", () => {
  it("finds the optimum of every tiny project and proves it, with lags, openings and pairs that ask for too much", () => {
    const all = projects({ activities: 4, horizon: 8, circles: true, openings: true });
    fc.assert(
      fc.property(all, (project) => {
        const optimum = bruteFinish(project);
        expect(learned(project)).toBe(optimum);
        expect(learned(project, FORGETFUL)).toBe(optimum);
      }),
      { numRuns: 200 },
    );
  });

  it("comes to the same finish whatever it forgets, on projects too large to be tried out", () => {
    const all = projects({ activities: 10, horizon: 30, circles: true, openings: false });
    fc.assert(
      fc.property(all, (project) => {
        expect(learned(project, FORGETFUL)).toBe(learned(project));
      }),
      { numRuns: 60 },
    );
  });
});

describe("what is watched", () => {
  it("is passed on once for each value that a bound rises over, however far it leaps, until somebody has had enough", () => {
    const values = fc.array(fc.integer({ min: -4, max: 30 }), { maxLength: 20 });
    fc.assert(
      fc.property(
        values,
        fc.integer({ min: -5, max: 30 }),
        fc.nat(40),
        fc.nat(6),
        (watched, before, rise, most) => {
          const watches = new Watches(Int32Array.from([0, -5]));
          watched.forEach((value, k) => watches.at(1, value).add(k, 0, 7));
          const passed: number[] = [];
          const clauses: number[] = [];
          const whole = watches.between(1, before, before + rise, (list, value) => {
            if (passed.length >= most) return false;
            passed.push(value);
            for (let at = 0; at < list.used; at += 3) clauses.push(list.list[at]!);
            return true;
          });
          const due = [...new Set(watched)].filter((value) => value > before && value <= before + rise);
          expect(whole).toBe(due.length <= most);
          expect(passed.length).toBe(Math.min(due.length, most));
          expect(passed.every((value) => due.includes(value))).toBe(true);
          const behind = watched.flatMap((value, k) => (passed.includes(value) ? [k] : []));
          expect(clauses.toSorted((a, b) => a - b)).toEqual(behind);
          watches.clear();
          expect(watches.between(1, -5, 100, () => false)).toBe(true);
        },
      ),
    );
  });
});
