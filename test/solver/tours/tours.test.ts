import { describe, expect, it } from "vitest";
import { random } from "../../../src/kernel/index.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { groundOf, isApart } from "../../../src/solver/tours/ground.ts";
import { Tours } from "../../../src/solver/tours/tours.ts";
import { task, tinyPlan } from "../../check/tinyPlan.ts";
import { tourDay } from "./tourDay.ts";

/** What stands on a route with its times, from the lander to the lander. */
function told(tours: Tours, r: number): number[][] {
  const first = r * tours.width;
  return Array.from({ length: tours.length[r]! + 2 }, (_, k) => [
    tours.node[first + k]!,
    tours.earliest[first + k]!,
    tours.latest[first + k]!,
  ]);
}

/** The same order laid out from scratch. */
function laidAnew(tours: Tours, r: number): number[][] {
  const anew = new Tours(tours.ground);
  anew.lay(
    r,
    told(tours, r)
      .slice(1, -1)
      .map(([a]) => a!),
  );
  return told(anew, r);
}

/** True where `a` behind place `k` makes no start later than its latest one. */
function goesOn(tours: Tours, a: number, r: number, k: number): boolean {
  const order = told(tours, r)
    .slice(1, -1)
    .map(([b]) => b!);
  const anew = new Tours(tours.ground);
  anew.lay(r, order.toSpliced(k, 0, a));
  return told(anew, r).every(([, earliest, latest]) => earliest! <= latest!);
}

describe("tours", () => {
  it("have the times of the same order laid out from scratch, whatever was put on and taken off", () => {
    let put = 0;
    let cut = 0;
    for (const gridS of [1, 60]) {
      for (let seed = 1; seed <= 12; seed += 1) {
        const problem = compile(tourDay(seed, { tasks: 12, crew: 2, gridS }));
        expect(isApart(problem)).toBe(true);
        const tours = new Tours(groundOf(problem));
        const stream = random(seed);
        for (let turn = 0; turn < 60; turn += 1) {
          const r = stream.below(2);
          const a = stream.below(12);
          const k = stream.below(tours.length[r]! + 1);
          if (tours.routeOf[a]! < 0 && goesOn(tours, a, r, k)) {
            tours.insert(a, r, k);
            put += 1;
          } else if (tours.length[r]! > 0 && stream.next() < 0.4) {
            const before = told(tours, r);
            const from = 1 + stream.below(tours.length[r]!);
            const count = 1 + stream.below(tours.length[r]! + 1 - from);
            tours.cut(r, from, count);
            cut += 1;
            // Outside the gaps that are told as widened, times are as they were.
            const after = told(tours, r);
            for (let gap = 0; gap < tours.firstGap[r]!; gap += 1)
              expect([after[gap]![1], after[gap + 1]![2]]).toEqual([before[gap]![1], before[gap + 1]![2]]);
            for (let gap = tours.lastGap[r]! + 1; gap < after.length - 1; gap += 1)
              expect([after[gap]![1], after[gap + 1]![2]]).toEqual([
                before[gap + count]![1],
                before[gap + count + 1]![2],
              ]);
          }
          expect(told(tours, r)).toEqual(laidAnew(tours, r));
        }
      }
    }
    expect(put).toBeGreaterThan(200);
    expect(cut).toBeGreaterThan(100);
  });

  it("are for days on which nothing but time decides", () => {
    const tasks = [task("one", "a", { worth: 1 }), task("two", "b", { worth: 2 })];
    const day = tourDay(1, { tasks: 4, crew: 2 });
    const grouped = {
      ...day,
      groups: [{ id: "g", name: "g", tasks: ["t1", "t2"], least: 0, most: 1, shares: [] }],
    };
    const far = {
      ...day,
      rules: { ...day.rules, distance: { ...day.rules.distance, level: "breach" as const } },
    };
    expect(isApart(compile(day))).toBe(true);
    expect(isApart(compile(grouped))).toBe(false);
    expect(isApart(compile(far))).toBe(false);
    expect(isApart(compile(tinyPlan({ tasks })))).toBe(false);
  });
});
