import { oneAfterOther, type Plan, type Schedule } from "../../plan/index.ts";
import type { Board } from "../network/board.ts";
import { compile } from "../problem/compile.ts";
import { egressS } from "../network/rules/outing.ts";
import { Day } from "../network/day.ts";
import { loadSchedule } from "../network/placing.ts";
import { NEVER, type Problem } from "../problem/problem.ts";
import { read } from "../network/verify.ts";
import { castOf } from "./lanes.ts";
import { neededWith, type Stage, stageOf } from "./stage.ts";

/**
 * A planned day as it is played: who does what in which order, when it is planned, and when each EVA goes out and is in. Many
 * schedules of one plan are taken up one after the other on the same arrays.
 */
export class Script {
  readonly stage: Stage;
  readonly problem: Problem;
  /** Placed activities in the order of their planned starts. */
  order = new Int32Array(0);
  readonly placed: Uint8Array;
  readonly planS: Int32Array;
  /** Where each stands in the order; -1 where it is not placed. */
  readonly rank: Int32Array;
  /** By slot: route, or routes + chain; -1 where the activity is not placed. */
  readonly laneOf: Int32Array;
  /**
   * By slot: work from its start on that has to fit into one stretch, s. Where the plan has a rest before it, all until the plan's next
   * rest or ingress; else the task itself, of the last one on a route with the way home and ingress.
   */
  readonly stretchS: Int32Array;
  readonly flown: Uint8Array;
  /** By EVA, as planned (S3): egress, ingress complete; and ingress complete no later, beside the longest duration. */
  readonly egressS: Float64Array;
  readonly closeS: Float64Array;
  readonly latestS: Float64Array;
  /** By EVA: those flown before it with somebody or a suit in common. */
  before: readonly (readonly number[])[] = [];
  /** By activity: what it waits for so that crew members stay together, pairs of an activity and seconds from its start. */
  readonly holdsInto: Map<number, readonly (readonly [from: number, seconds: number])[]> = new Map();
  /** Tasks that cannot be played as they are placed: crew that may not do them, ways that nobody may walk. */
  unplayed: readonly string[] = [];
  /** 1 for activities that this schedule needs (`neededWith`). */
  needed: Uint8Array;

  constructor(stage: Stage) {
    const { problem } = stage;
    this.stage = stage;
    this.problem = problem;
    this.needed = new Uint8Array(problem.activities);
    this.placed = new Uint8Array(problem.activities);
    this.planS = new Int32Array(problem.activities);
    this.rank = new Int32Array(problem.activities);
    this.laneOf = new Int32Array(problem.slots).fill(-1);
    this.stretchS = new Int32Array(problem.slots);
    this.flown = new Uint8Array(problem.evas);
    this.egressS = new Float64Array(problem.evas);
    this.closeS = new Float64Array(problem.evas);
    this.latestS = new Float64Array(problem.evas);
  }

  /** Takes up a schedule as it stands, sound or not. */
  takeSchedule(schedule: Schedule): void {
    const { problem } = this;
    const { placings } = read(problem, schedule);
    const { order, laneOf } = castOf(problem, placings);
    this.laneOf.set(laneOf);
    this.begin(order.map(({ activity, startS }) => [activity, startS]));
    this.outings();
    const played = this.reached();
    this.unplayed = schedule.placements.map(({ task }) => task).filter((task) => !played.has(task));
    // What keeps crew members together is known only of a day that can be laid.
    const day = new Day(problem);
    if (loadSchedule(day, schedule) === 0) this.takeHolds(day.board);
  }

  /** Takes up a day that holds. */
  takeBoard(board: Board): void {
    const { problem } = this;
    const list: [number, number][] = [];
    for (let a = 0; a < problem.activities; a += 1) {
      for (let s = problem.slotStart[a]!; s < problem.slotStart[a + 1]!; s += 1)
        this.laneOf[s] = board.placed[a] === 1 ? board.lane[s]! : -1;
      if (board.placed[a] === 1) list.push([a, board.earliest[a]!]);
    }
    const { lengthS } = problem;
    list.sort(([a, x], [b, y]) => x - y || lengthS[a]! - lengthS[b]! || a - b);
    this.unplayed = [];
    this.begin(list);
    this.outings();
    for (let e = 0; e < problem.evas; e += 1) if (this.flown[e] === 1) this.egressS[e] = egressS(board, e);
    this.takeHolds(board);
  }

  private begin(order: readonly (readonly [number, number])[]): void {
    this.placed.fill(0);
    this.rank.fill(-1);
    this.order = Int32Array.from(order, ([a]) => a);
    order.forEach(([a, startS], p) => {
      this.placed[a] = 1;
      this.planS[a] = startS;
      this.rank[a] = p;
    });
    this.holdsInto.clear();
    this.needed = neededWith(this.stage, this.placed);
  }

  private takeHolds(board: Board): void {
    const { activities } = this.problem;
    for (let k = 0; k < board.holds; k += 1) {
      const from = board.holdFrom[k]!;
      const to = board.holdTo[k]!;
      if (from >= activities || to >= activities) continue;
      this.holdsInto.set(to, [...(this.holdsInto.get(to) ?? []), [from, board.holdS[k]!]]);
    }
  }

  /** The tasks to which, and after the last of which home, a way leads that may be walked, in the planned order. */
  private reached(): ReadonlySet<string> {
    const { problem, order, laneOf } = this;
    const { slotStart, crewCount, places, lander, beginsAt, endsAt, legS, plan } = problem;
    const played = new Set(Array.from(order, (a) => plan.tasks[a]!.id));
    const last = new Map<number, number>();
    const isOpen = (r: number, from: number, to: number): boolean => legS[r]![from * places + to]! < NEVER;
    for (const a of order) {
      for (let s = slotStart[a]!; s < slotStart[a]! + crewCount[a]!; s += 1) {
        const r = laneOf[s]!;
        const before = last.get(r);
        if (!isOpen(r, before === undefined ? lander : endsAt[before]!, beginsAt[a]!))
          played.delete(plan.tasks[a]!.id);
        last.set(r, a);
      }
    }
    for (const [r, a] of last) if (!isOpen(r, endsAt[a]!, lander)) played.delete(plan.tasks[a]!.id);
    return played;
  }

  /** Egress and ingress of every EVA as planned (S3), and what bounds them. */
  private outings(): void {
    const { stage, problem, planS, laneOf, flown, egressS: outS, closeS, latestS } = this;
    const { evas, activities, routes, places, lander, beginsAt, endsAt, lengthS, plan } = problem;
    const lists = Array.from({ length: routes }, (): [slot: number, activity: number][] => []);
    flown.fill(0);
    outS.fill(Infinity);
    closeS.fill(-Infinity);
    for (const a of this.order) {
      for (let k = 0; k < problem.crewCount[a]!; k += 1) {
        const s = problem.slotStart[a]! + k;
        const r = laneOf[s]!;
        const e = problem.evaOfRoute[r]!;
        flown[e] = 1;
        // Only the first task of each is gone to from the lander: a given leg to a later one may take any time.
        if (lists[r]!.length === 0) {
          const wayS = problem.legS[r]![lander * places + beginsAt[a]!]!;
          outS[e] = Math.min(outS[e]!, planS[a]! - wayS - lengthS[activities + 2 * e]!);
        }
        lists[r]!.push([s, a]);
      }
    }
    for (let r = 0; r < routes; r += 1) {
      const a = lists[r]!.at(-1)?.[1] ?? -1;
      if (a < 0) continue;
      const e = problem.evaOfRoute[r]!;
      const backS = planS[a]! + lengthS[a]! + problem.legS[r]![endsAt[a]! * places + lander]!;
      closeS[e] = Math.max(closeS[e]!, backS + lengthS[activities + 2 * e + 1]!);
    }
    for (let r = 0; r < routes; r += 1) this.stretches(r, lists[r]!);
    for (let e = 0; e < evas; e += 1) {
      const gap = stage.gaps[e]!.find((one) => outS[e]! >= one.fromS && closeS[e]! <= one.toS);
      latestS[e] = gap ? gap.toS : Math.min(plan.evas[e]!.latestIngressS, plan.stay.lengthS);
    }
    this.before = plan.evas.map((eva, e) =>
      plan.evas.flatMap((other, o) =>
        o !== e && flown[o] === 1 && flown[e] === 1 && outS[o]! < outS[e]! && oneAfterOther(plan, other, eva)
          ? [o]
          : [],
      ),
    );
  }

  /** What has to fit into one stretch of work, for everything on route `r` in order. */
  private stretches(r: number, list: readonly (readonly [slot: number, activity: number])[]): void {
    const { problem, planS } = this;
    const { lengthS, beginsAt, endsAt, places, lander, restful, limits, activities } = problem;
    const legs = problem.legS[r]!;
    const e = problem.evaOfRoute[r]!;
    const doneS = (a: number): number => planS[a]! + lengthS[a]!;
    let untilS = 0;
    for (let k = list.length - 1; k >= 0; k -= 1) {
      const [s, a] = list[k]!;
      const after = list[k + 1]?.[1] ?? -1;
      if (after < 0)
        untilS = doneS(a) + legs[endsAt[a]! * places + lander]! + lengthS[activities + 2 * e + 1]!;
      else {
        const thereS = doneS(a) + legs[endsAt[a]! * places + beginsAt[after]!]!;
        if (planS[after]! - thereS >= limits.restS || restful[after] === 1) untilS = thereS;
      }
      const before = list[k - 1]?.[1] ?? -1;
      const place = before < 0 ? lander : endsAt[before]!;
      const freeS = before < 0 ? this.egressS[e]! + lengthS[activities + 2 * e]! : doneS(before);
      const restsBefore = planS[a]! - freeS - legs[place * places + beginsAt[a]!]! >= limits.restS;
      this.stretchS[s] = after < 0 || restsBefore ? untilS - planS[a]! : lengthS[a]!;
    }
  }
}

/** The schedule of a plan, taken up on a stage of its own. */
export function scriptOf(plan: Plan, schedule: Schedule): Script {
  const script = new Script(stageOf(compile(plan, schedule)));
  script.takeSchedule(schedule);
  return script;
}

/** On how many of `days` a schedule is played: none where something placed cannot be, since what the others come to without it is no answer. */
export function daysFor({ unplayed }: Script, days: number): number {
  return unplayed.length > 0 ? 0 : Math.max(0, days);
}
