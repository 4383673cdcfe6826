import type { Random } from "../../kernel/index.ts";
import type { Board } from "../network/board.ts";
import { NO_FLOOR } from "../network/board.ts";
import type { Problem } from "../problem/problem.ts";
import { nextStart } from "../problem/starts.ts";

/** An activity and the slot behind which it is placed. */
export interface Placing {
  readonly activity: number;
  readonly behind: number;
}

/**
 * Waiting on purpose, as a decision of the search: a start is held back (Board.floorS) until the pause before it is a rest, until its task
 * begins or ends with somebody else's, to its latest, or by any time; the first tasks of a whole outing to their latest, so that
 * waiting inside it falls away. What follows is pushed along. Earliest starts are not always the best ones: see network/waiting.
 */
export class Linger {
  private readonly board: Board;
  private readonly problem: Problem;
  private readonly random: Random;
  /** False where no rule is ever helped by waiting. */
  readonly helps: boolean;

  constructor(board: Board, random: Random) {
    const { problem } = board;
    this.board = board;
    this.problem = problem;
    this.random = random;
    const { workS, apartM } = problem.limits;
    this.helps =
      problem.checkLevel === "rules" &&
      (Number.isFinite(workS) || Number.isFinite(apartM) || problem.heat !== null);
  }

  /** Holds back a random start, or a whole outing. */
  holdBack(): void {
    const { board, problem, random } = this;
    if (board.count === 0) return;
    let a = random.below(problem.activities);
    while (board.placed[a] === 0) a = a + 1 === problem.activities ? 0 : a + 1;
    const e = board.evaOf[a]!;
    if (e < 0) return;
    if (random.next() < WHOLE) {
      for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
        const first = board.nodeOf[board.next[board.head + r]!]!;
        if (first < problem.activities) this.hold(first, board.latest[first]!);
      }
      return;
    }
    const slot = problem.slotStart[a]! + random.below(problem.crewCount[a]!);
    if (random.next() < LATEST) this.hold(a, board.latest[a]!);
    else this.hold(a, this.laterStartS(a, board.prev[slot]!));
  }

  /** Lets every start on EVA `e` go. */
  release(e: number): void {
    const { board, problem } = this;
    for (let a = 0; a < problem.activities; a += 1) if (board.evaOf[a] === e) board.floorS[a] = NO_FLOOR;
  }

  /** A start for `activity` behind slot `p` that is later than it has to be for some purpose. */
  laterStartS(activity: number, p: number): number {
    const { board, problem, random } = this;
    const { lengthS } = problem;
    const r = board.lane[p]!;
    const arrivesS = this.arrivesS({ activity, behind: p });
    const kind = random.next();
    if (kind < RESTED && Number.isFinite(problem.limits.workS)) return arrivesS + problem.limits.restS;
    const other = kind < 1 - ANY ? this.somebodyElses(r, arrivesS) : -1;
    if (other < 0) return arrivesS + Math.floor(random.next() * MOST_WAIT_S);
    const beginsS = board.earliest[other]!;
    return random.next() < 0.5 ? beginsS : beginsS + lengthS[other]! - lengthS[activity]!;
  }

  /**
   * A start for `late` that waits for some purpose, where `soon` is placed with it: now and then one that brings its crew member back so
   * much later that the other one has rested at the lander.
   */
  laterThan(late: Placing, soon: Placing): number {
    const { problem, random } = this;
    const { limits, lengthS } = problem;
    if (random.next() >= HOME_LATER || !Number.isFinite(limits.workS))
      return this.laterStartS(late.activity, late.behind);
    const soonBackS = this.arrivesS(soon) + lengthS[soon.activity]! + this.homeS(soon);
    return soonBackS + limits.restS - lengthS[late.activity]! - this.homeS(late);
  }

  /** When the crew member is at the place of the activity at the soonest, and it may begin. */
  private arrivesS({ activity, behind }: Placing): number {
    const { board, problem } = this;
    const { lengthS, endsAt, beginsAt, places, legS } = problem;
    const i = board.nodeOf[behind]!;
    const legs = legS[board.lane[behind]!]!;
    const atS = board.earliest[i]! + lengthS[i]! + legs[endsAt[i]! * places + beginsAt[activity]!]!;
    return nextStart(problem, activity, atS) ?? atS;
  }

  private homeS({ activity, behind }: Placing): number {
    const { board, problem } = this;
    return problem.legS[board.lane[behind]!]![problem.endsAt[activity]! * problem.places + problem.lander]!;
  }

  /** A task of another route of the same EVA that ends after `afterS`, one of the next few; -1 when there is none. */
  private somebodyElses(r: number, afterS: number): number {
    const { board, problem, random } = this;
    const e = problem.evaOfRoute[r]!;
    const first = problem.routeStart[e]!;
    const crew = problem.routeStart[e + 1]! - first;
    if (crew < 2) return -1;
    let other = first + random.below(crew - 1);
    if (other >= r) other += 1;
    let skip = random.below(FEW);
    let found = -1;
    for (let s = board.next[board.head + other]!; s < board.head && skip >= 0; s = board.next[s]!) {
      const a = board.nodeOf[s]!;
      if (board.earliest[a]! + problem.lengthS[a]! <= afterS) continue;
      found = a;
      skip -= 1;
    }
    return found;
  }

  private hold(a: number, startS: number): void {
    const { board } = this;
    if (startS > board.earliest[a]! && startS <= board.latest[a]!) board.floorS[a] = startS;
  }
}

/** Parts of the holds that are of a whole outing, and of the others those to the latest start. */
const WHOLE = 0.2;
const LATEST = 0.2;
/** Parts of the other waits that are rests, and that are for any time. */
const RESTED = 0.4;
const ANY = 0.2;
/** Part of two that are placed at once in which one lets the other rest at the lander. */
const HOME_LATER = 0.4;
/** The longest wait of the last kind, s. */
const MOST_WAIT_S = 3600;
/** How many of somebody else's next tasks may be waited for. */
const FEW = 3;
