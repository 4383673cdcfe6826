import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { random, type Random } from "../../src/kernel/index.ts";
import type { Board } from "../../src/solver/network/board.ts";
import { Day } from "../../src/solver/network/day.ts";
import { scheduleOf } from "../../src/solver/network/placing.ts";
import { keepFromEgress } from "../../src/solver/network/rules/fromegress.ts";
import { egressS } from "../../src/solver/network/rules/outing.ts";
import { Propagation } from "../../src/solver/network/propagate.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import type { Problem } from "../../src/solver/problem/problem.ts";
import { Insertion } from "../../src/solver/search/insertion.ts";
import { randomPlan } from "./randomPlan.ts";

/**
 * The quick trial (Day.tryBeside) on random plans: what it refuses leaves no trace, what it places breaks no rule by the judge, and its
 * times are those that follow from scratch with the same rests and holds.
 */

interface Tried {
  readonly problem: Problem;
  readonly day: Day;
  readonly judge: ReturnType<typeof judgeFor>;
}

function triedOn(seed: number): Tried {
  const plan = randomPlan(seed, {
    tasks: 6 + (seed % 8),
    crew: 1 + (seed % 3),
    evas: 1 + (seed % 2),
    places: 3 + (seed % 5),
    features: (seed % 4) / 3,
  });
  const problem = compile(plan);
  return { problem, day: new Day(problem), judge: judgeFor(plan) };
}

/** Any place that the order leaves for `activity`, in time or not; null where no crew may do it. */
function anyPlace(board: Board, activity: number, stream: Random): { behind: number[]; eva: number } | null {
  const { problem } = board;
  const first = problem.choiceStart[activity]!;
  const choices = problem.choiceStart[activity + 1]! - first;
  const crew = problem.crewCount[activity]!;
  if (choices === 0) return null;
  const at = crew > 0 ? problem.choiceAt[first + stream.below(choices)]! : 0;
  const lanes = Array.from({ length: crew }, (_, k) => problem.choiceRoutes[at + k]!);
  const taken = new Set<number>();
  for (let s = problem.slotStart[activity]! + crew; s < problem.slotStart[activity + 1]!; s += 1) {
    const q = problem.slotEquipment[s]!;
    const free = Array.from(
      { length: problem.chainStart[q + 1]! - problem.chainStart[q]! },
      (_, k) => problem.chainStart[q]! + k,
    ).filter((c) => !taken.has(c));
    if (free.length === 0) return null;
    const chain = free[stream.below(free.length)]!;
    taken.add(chain);
    lanes.push(problem.routes + chain);
  }
  const behind = lanes.map((lane) => {
    const slots = [board.head + lane];
    for (let s = board.next[board.head + lane]!; s < board.head; s = board.next[s]!) slots.push(s);
    return slots[stream.below(slots.length)]!;
  });
  return { behind, eva: crew > 0 ? problem.evaOfRoute[lanes[0]!]! : -1 };
}

/** All that a board holds, as plain values; latest starts and starts of what is not placed mean nothing. */
function pictured(board: Board): unknown {
  const { problem } = board;
  return {
    next: [...board.next.subarray(0, board.tail)].filter((_, slot) => board.lane[slot]! >= 0),
    prev: [...board.prev].filter((_, slot) => board.lane[slot]! >= 0),
    lane: [...board.lane],
    ...startsOn(board),
    rests: [...board.restS],
    holds: Array.from({ length: board.holds }, (_, k) => [
      board.holdFrom[k],
      board.holdTo[k],
      board.holdS[k],
    ]),
    held: [[...board.holdsFrom], [...board.holdsTo]],
    // Where no rule counts a refusal is a new order for all that anybody knows.
    versions: problem.checkLevel === "rules" ? [...board.version, ...board.evaVersion, board.state] : [],
    sums: [
      ...board.walkedM,
      ...board.drawn,
      ...board.allowedS,
      ...board.grams,
      board.walkM,
      board.worth,
      board.count,
    ],
  };
}

/** Earliest and latest starts of what is placed; egress and all back of EVAs that take place come last. */
function startsOn(board: Board): { earliest: number[]; latest: number[] } {
  const placings = (list: Int32Array): number[] => [...list].filter((_, node) => board.placed[node] === 1);
  return { earliest: placings(board.earliest), latest: placings(board.latest) };
}

/** The same from scratch under the rests and holds of `board`. */
function fromScratch(board: Board): { earliest: number[]; latest: number[] } {
  const day = new Day(board.problem);
  day.board.copy(board);
  const propagation = new Propagation(day.board);
  expect(propagation.earliestOfAll() && countsFromEgress(day.board, propagation)).toBe(true);
  expect(propagation.latestOfAll()).toBe(true);
  return startsOn(day.board);
}

/** Raises what windows from egress ask to be later, which is no rest and no hold, until nothing changes. */
function countsFromEgress(board: Board, propagation: Propagation): boolean {
  const { evas, pet } = board.problem;
  for (let changes = pet !== null; changes;) {
    changes = false;
    propagation.begin();
    for (let e = 0; e < evas; e += 1) {
      if (board.onEva[e] === 0) continue;
      const answer = keepFromEgress(board, propagation, e, egressS(board, e));
      if (answer === "fails") return false;
      if (answer === "changed") changes = true;
    }
    if (!propagation.raiseAll()) return false;
  }
  return true;
}

describe("a trial beside what stands", () => {
  it("leaves no trace when refused; what it places holds by the judge, with the times that follow from scratch", () => {
    let placed = 0;
    let refused = 0;
    let waits = 0;
    let later = 0;
    for (let seed = 1; seed <= 160; seed += 1) {
      const { problem, day, judge } = triedOn(seed);
      const { board } = day;
      const stream = random(seed);
      for (let turn = 0; turn < 60; turn += 1) {
        const a = stream.below(problem.activities);
        if (board.placed[a] === 1 || board.isOver(a) || problem.openStart[a] === problem.openStart[a + 1])
          continue;
        const there = anyPlace(board, a, stream);
        if (!there) continue;
        const before = pictured(board);
        if (!day.tryBeside(a, there.behind, there.eva)) {
          refused += 1;
          expect(pictured(board), `seed ${seed}, turn ${turn}`).toEqual(before);
          continue;
        }
        placed += 1;
        if (problem.checkLevel === "rules") {
          waits += board.holds + board.restS.filter((restS) => restS > 0).length;
          const now = startsOn(board);
          const scratch = fromScratch(board);
          expect(now.latest, `seed ${seed}, turn ${turn}`).toEqual(scratch.latest);
          // A later egress that a rule asks for is no rest and no hold: scratch does not know it.
          const count = now.earliest.length;
          const outings = board.onEva.filter((tasks) => tasks > 0).length;
          const goesLater = now.earliest.some(
            (startS, k) => k >= count - 2 * outings && (count - k) % 2 === 0 && startS > scratch.earliest[k]!,
          );
          if (goesLater) {
            later += 1;
            now.earliest.forEach((startS, k) => expect(startS).toBeGreaterThanOrEqual(scratch.earliest[k]!));
          } else expect(now.earliest, `seed ${seed}, turn ${turn}`).toEqual(scratch.earliest);
        }
        // Relations that are not about time are the insertion's to see to.
        const breaches = judge(scheduleOf(board)).findings.filter(
          (one) => one.level === "breach" && !one.rule.startsWith("link-"),
        );
        expect(
          breaches.map((one) => one.sentence),
          `seed ${seed}, turn ${turn}`,
        ).toEqual([]);
      }
    }
    expect(placed).toBeGreaterThan(500);
    expect(refused).toBeGreaterThan(500);
    expect(waits).toBeGreaterThan(50);
    expect(later).toBeLessThan(placed / 4);
  });

  it("is refused by no cheap test where it would hold: every place on a day is tried with the tests and without", () => {
    let held = 0;
    for (let seed = 500; seed < 620; seed += 1) {
      const { problem, day } = triedOn(seed);
      if (problem.checkLevel !== "rules") continue;
      const { board } = day;
      const insertion = new Insertion(day, random(seed), true);
      for (let a = 0; a < problem.activities; a += 1)
        if (a % 2 === 0 && board.placed[a] === 0) insertion.place(a, 0);
      for (let a = 1; a < problem.activities; a += 2) {
        if (
          board.placed[a] === 1 ||
          problem.crewCount[a] !== 1 ||
          problem.slotStart[a + 1]! - problem.slotStart[a]! !== 1
        )
          continue;
        if (board.isOver(a) || problem.openStart[a] === problem.openStart[a + 1]) continue;
        const holding: string[] = [];
        for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1) {
          const r = problem.choiceRoutes[problem.choiceAt[c]!]!;
          for (let p = board.head + r; p !== board.tail + r; p = board.next[p]!) {
            const was = new Day(problem);
            was.board.copy(board);
            if (was.tryBeside(a, [p], problem.evaOfRoute[r]!)) holding.push(`${r} ${p}`);
          }
        }
        if (problem.pairs[a]!.length + problem.needs[a]!.length > 0) continue;
        held += holding.length;
        // What fits somewhere is found somewhere.
        const was = new Day(problem);
        was.board.copy(board);
        const found = new Insertion(was, random(seed), true);
        let fits = found.place(a, 0);
        for (let again = 0; again < 20 && !fits; again += 1) fits = found.place(a, 0);
        expect({ seed, a, fits }).toEqual({ seed, a, fits: holding.length > 0 });
      }
    }
    expect(held).toBeGreaterThan(200);
  });
});
