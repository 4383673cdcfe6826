import { describe, expect, it } from "vitest";
import { random } from "../../../src/kernel/index.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { groundOf } from "../../../src/solver/tours/ground.ts";
import { Refill } from "../../../src/solver/tours/refill.ts";
import { Tours } from "../../../src/solver/tours/tours.ts";
import { tourDay } from "./tourDay.ts";

const TASKS = 40;
const CREW = 3;

function orderOn(tours: Tours, r: number): number[] {
  const first = r * tours.width + 1;
  return Array.from(tours.node.slice(first, first + tours.length[r]!));
}

/** Whether an order can be walked, laid out from scratch. */
function isWalkable(tours: Tours, r: number, order: readonly number[]): boolean {
  const anew = new Tours(tours.ground);
  anew.lay(r, order);
  return Array.from({ length: order.length + 2 }, (_, k) => r * anew.width + k).every(
    (at) => anew.earliest[at]! <= anew.latest[at]!,
  );
}

/** What is left out and goes somewhere, by trying every place. */
function stillFits(tours: Tours): number[] {
  const { possible, allows, routes } = tours.ground;
  return Array.from(possible).filter((a) => {
    if (tours.routeOf[a]! >= 0) return false;
    for (let r = 0; r < routes; r += 1) {
      const order = orderOn(tours, r);
      if (allows[a * routes + r] === 0) continue;
      for (let k = 0; k <= order.length; k += 1)
        if (isWalkable(tours, r, order.toSpliced(k, 0, a))) return true;
    }
    return false;
  });
}

describe("a refill", () => {
  it("leaves out nothing that goes anywhere, but for the places that are overlooked now and then", () => {
    let turns = 0;
    let overlooked = 0;
    let put = 0;
    let others = 0;
    for (const gridS of [1, 60])
      for (let seed = 1; seed <= 6; seed += 1) {
        const problem = compile(tourDay(seed, { tasks: TASKS, crew: CREW, gridS }));
        const tours = new Tours(groundOf(problem));
        const stream = random(seed);
        const refill = new Refill(tours, stream, problem.worth);
        const all = new Uint8Array(CREW).fill(1);
        // Twice: nobody overlooks the same place again.
        for (let k = 0; k < 2; k += 1) refill.fill(all.slice(), new Uint8Array(problem.activities).fill(1));
        expect(stillFits(tours)).toEqual([]);
        for (let turn = 0; turn < 12; turn += 1) {
          const open = new Uint8Array(CREW);
          const taken = new Uint8Array(problem.activities);
          for (const r of [stream.below(CREW), stream.below(CREW)]) {
            if (open[r] === 1 || tours.length[r] === 0) continue;
            const from = stream.below(tours.length[r]!);
            const count = 1 + stream.below(Math.min(4, tours.length[r]! - from));
            for (const a of orderOn(tours, r).slice(from, from + count)) taken[a] = 1;
            tours.cut(r, from + 1, count);
            open[r] = 1;
          }
          const before = Array.from(tours.ground.possible).filter(
            (a) => tours.routeOf[a]! < 0 && taken[a] === 0,
          );
          refill.fill(open, taken);
          for (let r = 0; r < CREW; r += 1) expect(isWalkable(tours, r, orderOn(tours, r))).toBe(true);
          put += taken.reduce(
            (sum, isTaken, a) => sum + (isTaken === 1 && tours.routeOf[a]! >= 0 ? 1 : 0),
            0,
          );
          others += before.filter((a) => tours.routeOf[a]! >= 0).length;
          turns += 1;
          if (stillFits(tours).length === 0) continue;
          overlooked += 1;
          refill.fill(all.slice(), new Uint8Array(problem.activities).fill(1));
          expect(stillFits(tours)).toEqual([]);
        }
      }
    expect(put).toBeGreaterThan(turns);
    expect(others).toBeGreaterThan(turns);
    expect(overlooked).toBeLessThan(0.05 * turns);
  });
});
