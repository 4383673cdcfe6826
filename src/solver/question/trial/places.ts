import type { Day } from "../../network/day.ts";
import type { Problem } from "../../problem/problem.ts";
import { pairsAllow } from "../../network/rules/pairs.ts";

/** A place in the order: a crew choice, and the slot that each of the activity's slots goes behind. */
export interface CandidatePlace {
  readonly choice: number;
  readonly eva: number;
  readonly behind: readonly number[];
  /** Room for the start by slack, s; negative: as much is missing. */
  readonly roomS: number;
}

/**
 * Places in the order where slack does not rule `activity` out, as they come, but no more than `most`. With `all`, those as well that
 * slack rules out.
 */
export function placesOf(day: Day, activity: number, most: number, all = false): CandidatePlace[] {
  const { problem, board } = day;
  const first = problem.openStart[activity]!;
  const last = problem.openStart[activity + 1]! - 1;
  if (last < first || (!all && board.isOver(activity))) return [];
  const walk = new PlaceWalk(day, activity, most, all);
  for (let c = problem.choiceStart[activity]!; c < problem.choiceStart[activity + 1]!; c += 1) {
    if (!pairsAllow(board, activity, c)) continue;
    if (!walk.over(c, problem.openFromS[first]!, problem.openToS[last]!)) break;
  }
  return walk.found;
}

/** Goes over the places of an activity, one of its slots after the other. */
class PlaceWalk {
  readonly found: CandidatePlace[] = [];
  private readonly day: Day;
  private readonly activity: number;
  private readonly most: number;
  private readonly all: boolean;
  private readonly crew: number;
  private readonly slots: number;
  private choice = 0;
  private readonly behind: number[] = [];

  constructor(day: Day, activity: number, most: number, all: boolean) {
    const { slotStart, crewCount } = day.problem;
    this.day = day;
    this.activity = activity;
    this.most = most;
    this.all = all;
    this.crew = crewCount[activity]!;
    this.slots = slotStart[activity + 1]! - slotStart[activity]!;
  }

  /** Goes over the places of crew `choice` with starts from `fromS` to `toS`; false when as many as wanted are found. */
  over(choice: number, fromS: number, toS: number): boolean {
    this.choice = choice;
    return this.slot(0, fromS, toS);
  }

  /** Places of the slots from number `level` on, those before it being placed. */
  private slot(level: number, fromS: number, toS: number): boolean {
    const { day, activity, choice, crew } = this;
    if (level === this.slots) return this.take(fromS, toS);
    for (const lane of lanesAt(day.problem, activity, choice, level))
      if (level < crew ? !this.onRoute(level, lane, fromS, toS) : !this.onChain(level, lane, fromS, toS))
        return false;
    return true;
  }

  /** Between neighbours on route `r`, ways walked. */
  private onRoute(level: number, r: number, fromS: number, toS: number): boolean {
    const { board, problem } = this.day;
    const { endsAt, beginsAt, places, lengthS } = problem;
    const legs = problem.legS[r]!;
    const a = this.activity;
    for (let p = board.head + r; p !== board.tail + r; p = board.next[p]!) {
      const i = board.nodeOf[p]!;
      const j = board.nodeOf[board.next[p]!]!;
      const hereS = board.earliest[i]! + lengthS[i]! + legs[endsAt[i]! * places + beginsAt[a]!]!;
      const leaveS = board.latest[j]! - lengthS[a]! - legs[endsAt[a]! * places + beginsAt[j]!]!;
      if (!this.behindSlot(level, p, Math.max(fromS, hereS), Math.min(toS, leaveS))) return false;
    }
    return true;
  }

  /** Between users of a unit of equipment that no other slot has; before the first and after the last one it is free. */
  private onChain(level: number, lane: number, fromS: number, toS: number): boolean {
    const { board, problem } = this.day;
    const { lengthS } = problem;
    if (this.isTaken(level, lane)) return true;
    const head = board.head + lane;
    const tail = board.tail + lane;
    for (let p = head; p !== tail; p = board.next[p]!) {
      const q = board.next[p]!;
      const i = board.nodeOf[p]!;
      const freeS = p === head ? fromS : Math.max(fromS, board.earliest[i]! + lengthS[i]!);
      const nextS = board.latest[board.nodeOf[q]!]! - lengthS[this.activity]!;
      const byS = q === tail ? toS : Math.min(toS, nextS);
      if (!this.behindSlot(level, p, freeS, byS)) return false;
    }
    return true;
  }

  /** With slot `level` behind `p`, where that leaves a start, or every place is asked for: the slots after it. */
  private behindSlot(level: number, p: number, fromS: number, toS: number): boolean {
    if (!this.all && fromS > toS) return true;
    this.behind[level] = p;
    return this.slot(level + 1, fromS, toS);
  }

  private take(fromS: number, toS: number): boolean {
    const { choice, crew, behind, found } = this;
    const { choiceRoutes, choiceAt, evaOfRoute } = this.day.problem;
    const eva = crew === 0 ? -1 : evaOfRoute[choiceRoutes[choiceAt[choice]!]!]!;
    found.push({ choice, eva, behind: [...behind], roomS: toS - fromS });
    return found.length < this.most;
  }

  /** True when another slot of the activity is on `lane`. */
  private isTaken(level: number, lane: number): boolean {
    const { board } = this.day;
    for (let k = this.crew; k < level; k += 1) if (board.lane[this.behind[k]!] === lane) return true;
    return false;
  }
}

/** Routes or chains that the slot at `level` may stand in. */
function lanesAt(problem: Problem, activity: number, choice: number, level: number): number[] {
  if (level < problem.crewCount[activity]!) return [problem.choiceRoutes[problem.choiceAt[choice]! + level]!];
  const q = problem.slotEquipment[problem.slotStart[activity]! + level]!;
  const first = problem.chainStart[q]!;
  return Array.from({ length: problem.chainStart[q + 1]! - first }, (_, k) => problem.routes + first + k);
}
