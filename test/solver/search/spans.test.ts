import { describe, expect, it } from "vitest";
import { random, type Random } from "../../../src/kernel/index.ts";
import { Board } from "../../../src/solver/network/board.ts";
import { Day } from "../../../src/solver/network/day.ts";
import { egressS } from "../../../src/solver/network/rules/outing.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { Recreate } from "../../../src/solver/search/recreate.ts";
import { Ruin } from "../../../src/solver/search/ruin.ts";
import { Spans } from "../../../src/solver/search/spans.ts";
import { randomPlan } from "../../properties/randomPlan.ts";

/** A day of a random plan, filled, and with some of it taken off again; null where rules do not decide or it does not settle. */
function openDay(seed: number): Day | null {
  const problem = compile(randomPlan(seed, { tasks: 22, crew: 2, evas: 2, places: 6, features: 0.7 }));
  if (problem.checkLevel !== "rules") return null;
  const day = new Day(problem);
  const stream = random(seed);
  new Recreate(day, stream, true).fill();
  const full = new Board(problem);
  full.copy(day.board);
  new Ruin(day, stream).span();
  return day.settleFrom(full) ? day : null;
}

/** Random slots to stand behind for `activity`: on the routes of a crew choice, and on a unit for each that it needs; null without crew. */
function anyPlace(
  { problem, board }: Day,
  activity: number,
  stream: Random,
): { behind: number[]; eva: number } | null {
  const crew = problem.crewCount[activity]!;
  const first = problem.choiceStart[activity]!;
  const choices = problem.choiceStart[activity + 1]! - first;
  if (crew === 0 || choices === 0) return null;
  const at = problem.choiceAt[first + stream.below(choices)]!;
  const behind: number[] = [];
  const standOn = (lane: number): void => {
    let p = board.head + lane;
    while (board.next[p]! < board.head && stream.next() < 0.8) p = board.next[p]!;
    behind.push(p);
  };
  for (let k = 0; k < crew; k += 1) standOn(problem.choiceRoutes[at + k]!);
  const units = new Set<number>();
  for (let s = problem.slotStart[activity]! + crew; s < problem.slotStart[activity + 1]!; s += 1) {
    const equipment = problem.slotEquipment[s]!;
    let c = problem.chainStart[equipment]!;
    while (units.has(c)) c += 1;
    units.add(c);
    standOn(problem.routes + c);
  }
  return { behind, eva: problem.evaOfRoute[problem.choiceRoutes[at]!]! };
}

describe("what an EVA takes at the least", () => {
  it("is no more than what it takes at its earliest starts", () => {
    let read = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const day = openDay(seed);
      if (!day) continue;
      const { board, problem } = day;
      const spans = new Spans(board);
      for (let e = 0; e < problem.evas; e += 1) {
        if (board.onEva[e] === 0) continue;
        spans.read(e);
        expect(spans.wholeS(e), `seed ${seed}`).toBeGreaterThan(0);
        expect(spans.wholeS(e), `seed ${seed}`).toBeLessThanOrEqual(
          board.earliest[problem.activities + 2 * e + 1]! - egressS(board, e),
        );
        read += 1;
      }
    }
    expect(read).toBeGreaterThan(20);
  });

  it("refuses no place that holds when it is tried beside what stands", () => {
    let refused = 0;
    let held = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const day = openDay(seed);
      if (!day) continue;
      const { board, problem } = day;
      const spans = new Spans(board);
      const stream = random(seed);
      const before = new Board(problem);
      for (let k = 0; k < 400; k += 1) {
        const activity = stream.below(problem.activities);
        if (board.placed[activity] === 1) continue;
        const place = anyPlace(day, activity, stream);
        if (!place) continue;
        const may = spans.mayHold(activity, place.behind, place.eva);
        before.copy(board);
        const holds = day.tryBeside(activity, place.behind, place.eva);
        if (!may)
          expect(holds, `seed ${seed}, activity ${activity} behind ${place.behind.join()}`).toBe(false);
        if (!may) refused += 1;
        if (holds) held += 1;
        // Now and then what was placed stays, so that days of all kinds are met.
        if (holds && stream.next() < 0.7) board.copy(before);
      }
    }
    expect(refused).toBeGreaterThan(500);
    expect(held).toBeGreaterThan(100);
  });
});
