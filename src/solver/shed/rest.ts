import type { Schedule } from "../../plan/index.ts";
import { Day } from "../day.ts";
import { castOf, type Cast } from "../odds/lanes.ts";
import { held } from "../pinned.ts";
import type { Problem } from "../problem.ts";
import { read, type Stand, Verifier } from "../verify.ts";
import { lasting } from "./late.ts";

/**
 * The rest of an EVA once one task is under way. What began before that task's planned end is done or under way and
 * stays. The other placements of the EVA, remote work still to come, and what anywhere needs any of these may be dropped; on the
 * EVA and in remote work they may also slide later, in their order and never before their planned start. Everything
 * else stays where it is.
 */
export class Rest {
  /** The task under way. */
  readonly present: number;
  /** Activities that may be dropped, in the order of planned starts. */
  readonly open: readonly number[];
  /** 1 for what is done or under way. */
  readonly past: Uint8Array;
  private readonly problem: Problem;
  private readonly cast: Cast;
  private day: Day | null = null;
  private verifier: Verifier | null = null;

  constructor(base: Problem, schedule: Schedule, present: number, eva: number) {
    this.present = present;
    const { stands } = read(base, schedule);
    const startOf = new Map(stands.map((stand) => [stand.activity, stand.startS]));
    const leftS = startOf.get(present)! + base.lengthS[present]!;
    const evaOf = (stand: Stand): number =>
      base.crewCount[stand.activity] === 0
        ? -1
        : base.evaOfRoute[base.choiceRoutes[base.choiceAt[stand.choice]!]!]!;
    this.past = new Uint8Array(base.activities);
    const sliding = new Uint8Array(base.activities);
    for (const stand of stands) {
      const a = stand.activity;
      if (a === present || stand.startS < leftS) this.past[a] = 1;
      else if (evaOf(stand) === eva || evaOf(stand) < 0) sliding[a] = 1;
    }
    const open = new Set(stands.map(({ activity }) => activity).filter((a) => sliding[a] === 1));
    for (const a of open)
      for (const b of base.neededBy[a]!) if (startOf.has(b) && this.past[b] === 0) open.add(b);
    this.open = [...open].sort((a, b) => startOf.get(a)! - startOf.get(b)! || a - b);
    const still = stands.filter(({ activity: a }) => sliding[a] === 0);
    const first = held(base, still, "at");
    const moving = read(first, schedule).stands.filter(({ activity: a }) => sliding[a] === 1);
    this.problem = held(first, moving, "from");
    this.cast = castOf(this.problem, read(this.problem, schedule).stands);
  }

  /** From now on the present task lasts `lengthS`. */
  take(lengthS: number): void {
    const problem = lasting(this.problem, this.present, lengthS, this.past);
    this.day = new Day(problem);
    this.verifier = new Verifier(problem);
  }

  /** The starts of what is left when `drop` (1 by activity) is left out; null when a rule is broken. */
  hold(drop: Uint8Array): readonly Stand[] | null {
    const day = this.day!;
    const { board, problem } = day;
    for (const { activity: a } of this.cast.order) if (board.placed[a] === 1) board.unlink(a);
    const { slotStart, crewCount, evaOfRoute } = problem;
    const behind: number[] = [];
    const kept = this.cast.order.filter(({ activity }) => drop[activity] === 0);
    for (const { activity: a, startS } of kept) {
      if (problem.needs[a]!.some((b) => drop[b] === 1)) return null;
      behind.length = 0;
      for (let s = slotStart[a]!; s < slotStart[a + 1]!; s += 1) {
        const lane = this.cast.laneOf[s]!;
        if (lane < 0) return null;
        behind.push(board.prev[board.tail + lane]!);
      }
      board.earliest[a] = startS;
      board.link(a, behind, crewCount[a] === 0 ? -1 : evaOfRoute[this.cast.laneOf[slotStart[a]!]!]!);
    }
    if (!day.settle()) return null;
    const stands = kept.map(({ activity, choice }) => ({
      activity,
      choice,
      startS: board.earliest[activity]!,
    }));
    return this.verifier!.holds(stands) ? stands : null;
  }
}
