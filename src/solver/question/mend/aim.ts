import type { Plan, Schedule } from "../../../plan/index.ts";
import type { Problem } from "../../problem/problem.ts";
import { read, type PlacedActivity, type Verifier } from "../../network/verify.ts";
import { scheduleFrom } from "../trial/placed.ts";
import { type Cost, costOf, less, losesNothing } from "./cost.ts";

/** What a repair comes as near to as it can, and the nearest sound schedule so far. */
export class Aim {
  readonly plan: Plan;
  readonly before: Schedule;
  readonly verifier: Verifier;
  readonly problem: Problem;
  /** Activities that are dropped only where nothing else makes the day sound. */
  readonly keep: ReadonlySet<number>;
  /** Start in the schedule by activity. */
  readonly wasS: ReadonlyMap<number, number>;
  /** As the schedule has them: those that can be read. */
  readonly own: ReadonlyMap<number, PlacedActivity>;
  private readonly keepIds: readonly string[];
  private best: {
    readonly placings: readonly PlacedActivity[];
    readonly schedule: Schedule;
    readonly cost: Cost;
  } | null = null;

  constructor(plan: Plan, before: Schedule, verifier: Verifier, keep: readonly string[]) {
    this.plan = plan;
    this.before = before;
    this.verifier = verifier;
    this.problem = verifier.problem;
    this.keepIds = keep;
    const index = new Map(plan.tasks.map((task, a) => [task.id, a]));
    this.keep = new Set(keep.flatMap((id) => index.get(id) ?? []));
    const first = once(before);
    this.wasS = new Map(
      first.placements.flatMap((one) => {
        const a = index.get(one.task);
        return a === undefined ? [] : [[a, one.startS]];
      }),
    );
    this.own = new Map(read(this.problem, first).placings.map((placing) => [placing.activity, placing]));
  }

  get nearest() {
    return this.best;
  }

  /** Takes a sound schedule over where it is nearer than all before; true when it is. */
  propose(placings: readonly PlacedActivity[]): boolean {
    const schedule = scheduleFrom(this.problem, inOrder(placings));
    const cost = costOf(this.plan, this.before, schedule, this.keepIds);
    if (this.best && !less(cost, this.best.cost)) return false;
    this.best = { placings, schedule, cost };
    return true;
  }

  /** Takes the schedule itself over, as it is. */
  asItIs(): void {
    const cost = costOf(this.plan, this.before, this.before, this.keepIds);
    this.best = { placings: [...this.own.values()], schedule: this.before, cost };
  }

  cost(placings: readonly PlacedActivity[]): Cost {
    return costOf(this.plan, this.before, scheduleFrom(this.problem, placings), this.keepIds);
  }

  /** True when nothing is dropped and no more than `moves` tasks are changed. */
  isNear(moves: number): boolean {
    return this.best !== null && losesNothing(this.best.cost) && this.best.cost.changed <= moves;
  }

  /** What must least be lost comes first: what is to be kept, must-do tasks, then by worth. */
  readonly byRank = (a: number, b: number): number => {
    const { must, worth } = this.problem;
    return (
      Number(this.keep.has(b)) - Number(this.keep.has(a)) ||
      must[b]! - must[a]! ||
      worth[b]! - worth[a]! ||
      a - b
    );
  };

  /** Placed before and not among `placings`, first what must least be lost. */
  lost(placings: readonly PlacedActivity[]): number[] {
    const there = new Set(placings.map((placing) => placing.activity));
    return [...this.wasS.keys()].filter((a) => !there.has(a)).sort(this.byRank);
  }
}

/** A task placed twice stands once, where it is named first. */
export function once({ placements }: Schedule): Schedule {
  const seen = new Set<string>();
  return {
    placements: placements.filter(({ task }) => {
      if (seen.has(task)) return false;
      seen.add(task);
      return true;
    }),
  };
}

function inOrder(placings: readonly PlacedActivity[]): PlacedActivity[] {
  return [...placings].sort((a, b) => a.activity - b.activity);
}
