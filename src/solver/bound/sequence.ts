import { Board } from "../network/board.ts";
import { Day } from "../network/day.ts";
import { releaseStarts } from "../network/placing.ts";
import type { Problem } from "../problem/problem.ts";
import { Boxes } from "./boxes.ts";
import { relaxed } from "./relaxed.ts";

/** Orders tried for one assignment before it is left open. */
const MOST_TRIES = 20_000;
/** Boxes of starts looked at for one order before it is left open. */
const MOST_BOXES = 400;
/** Tries between two looks at the clock. */
const BURST = 200;

export type Sequenced = "holds" | "never" | "unknown";

/**
 * Orders for given activities on given routes: every position of each on its routes and on the units it uses, one activity after
 * the other, given up as soon as the relaxed day has no room, since more activities never make room.
 */
export class Sequencer {
  /** The last day that held, with all rules. */
  readonly day: Day;
  private readonly problem: Problem;
  private readonly relaxedDay: Day;
  private readonly boxes: Boxes;
  private tries = 0;
  private slipped = false;
  private readonly empty: Board;

  constructor(problem: Problem) {
    this.problem = problem;
    this.day = new Day(problem);
    this.relaxedDay = new Day(relaxed(problem));
    this.boxes = new Boxes(problem, this.relaxedDay.problem);
    this.empty = new Board(problem);
  }

  /** Looks for an order of `activities`, each with its crew choice in `choiceOf`; `day` has it when one holds. */
  *run(activities: readonly number[], choiceOf: Int32Array): Generator<void, Sequenced> {
    this.tries = 0;
    this.slipped = false;
    const { problem } = this;
    const width = (a: number): number => problem.slotStart[a + 1]! - problem.slotStart[a]!;
    const roomS = (a: number): number =>
      problem.openToS[problem.openStart[a + 1]! - 1]! - problem.openFromS[problem.openStart[a]!]!;
    const order = [...activities].sort((a, b) => width(b) - width(a) || roomS(a) - roomS(b) || a - b);
    this.relaxedDay.board.copy(this.empty);
    if (!this.relaxedDay.settle()) return "unknown";
    const found = yield* this.place(order, 0, choiceOf);
    if (found) return "holds";
    return this.slipped || this.tries > MOST_TRIES ? "unknown" : "never";
  }

  private *place(order: readonly number[], at: number, choiceOf: Int32Array): Generator<void, boolean> {
    const { relaxedDay, day, problem } = this;
    if (at === order.length) {
      day.board.copy(relaxedDay.board);
      if (day.settle()) return true;
      return yield* this.wait(choiceOf);
    }
    const a = order[at]!;
    const first = problem.choiceAt[choiceOf[a]!]!;
    const eva = problem.crewCount[a] === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[first]!]!;
    for (const behind of this.positions(a, first)) {
      this.tries += 1;
      if (this.tries > MOST_TRIES) return false;
      if (this.tries % BURST === 0) yield;
      if (!relaxedDay.tryLink(a, behind, eva)) continue;
      if (yield* this.place(order, at + 1, choiceOf)) return true;
      relaxedDay.unlink(a);
    }
    return false;
  }

  /** Only the rules left out of the relaxed day stand against its order: looks for later starts that keep them. */
  private *wait(choiceOf: Int32Array): Generator<void, boolean> {
    const { boxes, relaxedDay } = this;
    const going = boxes.run(relaxedDay.board, choiceOf, MOST_BOXES);
    for (;;) {
      const { value, done } = going.next();
      if (done !== true) {
        this.tries += 1;
        if (this.tries % BURST === 0) yield;
        continue;
      }
      if (value === "never") return false;
      if (value === "holds" && this.holdsAsFound()) return true;
      this.slipped = true;
      return false;
    }
  }

  /** True when the day holds with the starts that were found; they are then let go as far as it holds without. */
  private holdsAsFound(): boolean {
    const { boxes, day, relaxedDay } = this;
    day.board.copy(relaxedDay.board);
    for (const { activity, startS } of boxes.found) day.board.floorS[activity] = startS;
    if (!day.settle()) return false;
    releaseStarts(day, boxes.found);
    return true;
  }

  /** Every way to stand `a` behind slots of its routes and of units of its equipment. */
  private positions(a: number, first: number): number[][] {
    const { problem } = this;
    const { board } = this.relaxedDay;
    const along = (lane: number): number[] => {
      const slots: number[] = [];
      for (let p = board.head + lane; p !== board.tail + lane; p = board.next[p]!) slots.push(p);
      return slots;
    };
    const crew = problem.crewCount[a]!;
    const count = problem.slotStart[a + 1]! - problem.slotStart[a]!;
    let ways: number[][] = [[]];
    for (let k = 0; k < count; k += 1) {
      const lanes: number[] = [];
      if (k < crew) lanes.push(problem.choiceRoutes[first + k]!);
      else {
        const q = problem.slotEquipment[problem.slotStart[a]! + k]!;
        for (let c = problem.chainStart[q]!; c < problem.chainStart[q + 1]!; c += 1)
          lanes.push(problem.routes + c);
      }
      ways = ways.flatMap((way) =>
        lanes.flatMap((lane) =>
          // A unit serves an activity once, and units are taken in their order: any other order is the same.
          k > crew && way.length > crew && sameEquipment(problem, a, k) && board.lane[way[k - 1]!]! >= lane
            ? []
            : along(lane).map((slot) => [...way, slot]),
        ),
      );
    }
    return ways;
  }
}

/** True when slots `k` and the one before it are units of the same equipment. */
function sameEquipment(problem: Problem, a: number, k: number): boolean {
  const s = problem.slotStart[a]! + k;
  return problem.slotEquipment[s] === problem.slotEquipment[s - 1];
}
