import { gridFrom, gridTo, instant, type Interval } from "../../kernel/index.ts";
import { openingsOfActivity } from "../problem/starts.ts";
import type { Problem } from "../problem/problem.ts";
import type { Board } from "./board.ts";
import type { Day } from "./day.ts";

/**
 * Starts of `activity` on crew choice `c` of a day when everything else may slide in its order.
 *
 * For each place in the order the earliest start comes out of the day itself. The latest is what slack allows, brought
 * forward by halving until the day holds with the activity no earlier than that. The others slide on the grid, and both ends of a
 * stretch lie on it; between two starts that hold all hold. Places that could only give starts in `known` are passed over.
 */
export function slidingBand(day: Day, activity: number, c: number, known: readonly Interval[]): Interval[] {
  return day.board.isOver(activity) ? [...known] : new SlidingBand(day, activity, c, known).found();
}

/** The search for one band: slot by slot of the activity a place in the order, as long as they leave a start between them. */
class SlidingBand {
  private readonly day: Day;
  private readonly board: Board;
  private readonly problem: Problem;
  private readonly activity: number;
  private readonly crew: number;
  /** Where the routes of the choice begin. */
  private readonly at: number;
  private readonly eva: number;
  private readonly first: number;
  private readonly slots: number;
  private readonly band: Interval[];
  private readonly behind: number[] = [];

  constructor(day: Day, activity: number, c: number, known: readonly Interval[]) {
    const { problem } = day;
    this.day = day;
    this.board = day.board;
    this.problem = problem;
    this.activity = activity;
    this.crew = problem.crewCount[activity]!;
    this.at = problem.choiceAt[c]!;
    this.eva = this.crew === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[this.at]!]!;
    this.first = problem.slotStart[activity]!;
    this.slots = problem.slotStart[activity + 1]! - this.first;
    this.band = [...known];
  }

  found(): Interval[] {
    this.across(0, -Infinity, Infinity);
    return this.band;
  }

  /** Places for the slots from number `level` on, with starts from `fromS` to `byS` left by those before. */
  private across(level: number, fromS: number, byS: number): void {
    // Nothing new to be found between these.
    if (this.band.some((one) => one.startS <= fromS && byS < one.endS)) return;
    if (level === this.slots) this.tryHere();
    else if (level < this.crew) this.onRoute(level, fromS, byS);
    else this.onChains(level, fromS, byS);
  }

  private onRoute(level: number, fromS: number, byS: number): void {
    const { problem, board, activity } = this;
    const { lengthS, endsAt, beginsAt, places } = problem;
    const r = problem.choiceRoutes[this.at + level]!;
    const legs = problem.legS[r]!;
    for (let p = board.head + r; p !== board.tail + r; p = board.next[p]!) {
      const i = board.nodeOf[p]!;
      const j = board.nodeOf[board.next[p]!]!;
      const meetS = board.earliest[i]! + lengthS[i]! + legs[endsAt[i]! * places + beginsAt[activity]!]!;
      const endS = board.latest[j]! - lengthS[activity]! - legs[endsAt[activity]! * places + beginsAt[j]!]!;
      this.standBehind(level, p, Math.max(fromS, meetS), Math.min(byS, endS));
    }
  }

  /** A unit of equipment: any place in the order of any unit that no other slot of the activity has. */
  private onChains(level: number, fromS: number, byS: number): void {
    const { problem, board, activity, behind } = this;
    const { lengthS } = problem;
    const equipment = problem.slotEquipment[this.first + level]!;
    for (let c = problem.chainStart[equipment]!; c < problem.chainStart[equipment + 1]!; c += 1) {
      const chain = problem.routes + c;
      if (behind.slice(this.crew, level).some((p) => board.lane[p] === chain)) continue;
      for (let p = board.head + chain; p !== board.tail + chain; p = board.next[p]!) {
        const i = board.nodeOf[p]!;
        const meetS = board.earliest[i]! + lengthS[i]!;
        const endS = board.latest[board.nodeOf[board.next[p]!]!]! - lengthS[activity]!;
        this.standBehind(level, p, Math.max(fromS, meetS), Math.min(byS, endS));
      }
    }
  }

  private standBehind(level: number, slot: number, fromS: number, byS: number): void {
    if (fromS > byS) return;
    this.behind[level] = slot;
    this.across(level + 1, fromS, byS);
  }

  /** Adds the starts that the place in hand gives. */
  private tryHere(): void {
    const { activity, problem, band } = this;
    const room = this.day.roomAt(activity, this.behind, this.eva);
    if (!room) return;
    const lastS = this.holdsAt(room.toS) ? room.toS : this.lastBetween(room.fromS, room.toS);
    for (const window of openingsOfActivity(problem.windows, activity)) {
      const startS = Math.max(room.fromS, window.fromS);
      const endS = Math.min(lastS, window.toS) + 1;
      if (startS < endS) band.push({ startS: instant(startS), endS: instant(endS) });
    }
  }

  /** The last start on the grid that holds, found by halving between one that does and one that does not. */
  private lastBetween(holdsS: number, failsS: number): number {
    const { gridS } = this.problem;
    let lowS = holdsS;
    let highS = failsS;
    for (;;) {
      // What lies on the grid between the two.
      const nextS = gridFrom(lowS + 1, gridS);
      const lastS = gridTo(highS - 1, gridS);
      if (nextS > lastS) return lowS;
      const middleS = gridTo(Math.floor((nextS + lastS) / 2), gridS);
      if (this.holdsAt(middleS)) lowS = middleS;
      else highS = middleS;
    }
  }

  private holdsAt(startS: number): boolean {
    return this.day.holdsAt(this.activity, this.behind, this.eva, startS);
  }
}
