import type { PackerRule } from "../../../rules/index.ts";
import type { Schedule } from "../../../plan/index.ts";
import { castOf, type Cast } from "../../simulate/lanes.ts";
import { withPins } from "../../problem/pinned.ts";
import { NEVER, type Problem } from "../../problem/problem.ts";
import { type Fault, read, type PlacedActivity, Verifier } from "../../network/verify.ts";
import { Trial } from "../trial/trial.ts";
import { lasting } from "./lasting.ts";
import { changed } from "../../problem/changed.ts";

/**
 * The rest of an EVA once one task is under way. What began before that task's planned end is done or under way and
 * stays. The other placements of the EVA, remote work still to come, and what anywhere needs any of these may be dropped; on the
 * EVA and in remote work they may also slide later, in their order and never before their planned start. Everything
 * else stays where it is.
 */
export class Remainder {
  /** The task under way. */
  readonly present: number;
  /** Activities that may be dropped, in the order of planned starts. */
  readonly open: readonly number[];
  /** 1 for what is done or under way. */
  readonly past: Uint8Array;
  /** What the schedule places. */
  readonly placed: ReadonlySet<number>;
  /** 1 for what is still to come on the EVA, and remote work still to come: it may slide. */
  readonly sliding: Uint8Array;
  /** All that is done, under way or elsewhere, held where it is; what slides is held from its start on. */
  readonly problem: Problem;
  private readonly cast: Cast;
  private trial: Trial | null = null;
  private verifier: Verifier | null = null;
  tolerant = false;
  /** What is lost by the present task being as long as it now is, whatever is done. */
  lost: ReadonlySet<number> = new Set();

  constructor(base: Problem, schedule: Schedule, present: number, eva: number) {
    this.present = present;
    const { placings } = read(base, schedule);
    const startOf = new Map(placings.map((placing) => [placing.activity, placing.startS]));
    this.placed = new Set(startOf.keys());
    const leftS = startOf.get(present)! + base.lengthS[present]!;
    const evaOf = (placing: PlacedActivity): number =>
      base.crewCount[placing.activity] === 0
        ? -1
        : base.evaOfRoute[base.choiceRoutes[base.choiceAt[placing.choice]!]!]!;
    this.past = new Uint8Array(base.activities);
    const sliding = new Uint8Array(base.activities);
    this.sliding = sliding;
    for (const placing of placings) {
      const a = placing.activity;
      if (a === present || placing.startS < leftS) this.past[a] = 1;
      else if (evaOf(placing) === eva || evaOf(placing) < 0) sliding[a] = 1;
    }
    const open = new Set(placings.map(({ activity }) => activity).filter((a) => sliding[a] === 1));
    for (const a of open)
      for (const b of base.neededBy[a]!) if (startOf.has(b) && this.past[b] === 0) open.add(b);
    this.open = [...open].sort((a, b) => startOf.get(a)! - startOf.get(b)! || a - b);
    const still = placings.filter(({ activity: a }) => sliding[a] === 0);
    const first = withPins(base, still, "at");
    const moving = read(first, schedule).placings.filter(({ activity: a }) => sliding[a] === 1);
    this.problem = withPins(first, moving, "from");
    this.cast = castOf(this.problem, read(this.problem, schedule).placings);
  }

  /** What stays when all that may be dropped is dropped and everybody walks home at once. */
  get bare(): readonly PlacedActivity[] {
    const open = new Set(this.open);
    return this.cast.order.filter(({ activity }) => !open.has(activity));
  }

  /** Rules that are broken even so. */
  faultsAtHome(): PackerRule[] {
    const faults = this.verifier!.faults(this.bare).filter((fault) => !this.isVain(fault));
    return [...new Set(faults.map(({ rule }) => rule))];
  }

  /** The same set dropped with the present task as long as it now is; null when that does not hold. */
  again<T extends { readonly drop: readonly number[] }>(
    dropped: T,
  ): (T & { readonly placings: readonly PlacedActivity[] }) | null {
    const flags = new Uint8Array(this.past.length);
    for (const a of dropped.drop) flags[a] = 1;
    const placings = this.hold(flags);
    return placings && { ...dropped, tolerant: this.tolerant, placings };
  }

  /** True when `placings` break no rule with the present task as long as it now is. */
  verify(placings: readonly PlacedActivity[]): boolean {
    return this.holdsFor(this.verifier!, placings);
  }

  /** True when `placings` break no rule but needs of what is done in vain. */
  holdsFor(verifier: Verifier, placings: readonly PlacedActivity[]): boolean {
    return verifier.faults(placings).every((fault) => this.isVain(fault));
  }

  /** What is done in vain cannot be undone: that need is told, not tested. */
  private isVain({ rule, about }: Fault): boolean {
    return rule === "link-needs" && this.past[about] === 1;
  }

  /**
   * From now on the present task lasts `lengthS`. `tolerant`: the work stretch that it is part of may be as much too long as the
   * task is late; all before and after it, taken by itself, is not. `lost`: what that loses whatever is done.
   */
  take(lengthS: number, tolerant: boolean, lost: ReadonlySet<number> = new Set()): void {
    const { problem, verifier } = this.lasting(this.problem, lengthS, tolerant);
    this.trial = new Trial(problem);
    this.verifier = verifier;
    this.tolerant = tolerant;
    this.lost = lost;
  }

  /** `problem` with the present task lasting `lengthS`, to be tried on, and what its schedules are tested with. */
  lasting(
    problem: Problem,
    lengthS: number,
    tolerant: boolean,
  ): { readonly problem: Problem; readonly verifier: Verifier } {
    const strict = this.withoutPastWindows(lasting(problem, this.present, lengthS, this.past));
    if (!tolerant) return { problem: strict, verifier: new Verifier(strict) };
    const restful = strict.restful.slice();
    restful[this.present] = 1;
    const workS = strict.limits.workS + lengthS - problem.lengthS[this.present]!;
    return {
      problem: changed(strict, { limits: { ...strict.limits, workS } }),
      verifier: new Verifier(changed(strict, { restful })),
    };
  }

  /** By when after egress what is past was to end is not asked any more: nobody can mend that, and what it loses is told. */
  private withoutPastWindows(problem: Problem): Problem {
    if (!problem.pet) return problem;
    const toS = problem.pet.toS.map((byS, a) => (this.past[a] === 1 ? NEVER : byS));
    return changed(problem, { pet: { ...problem.pet, toS } });
  }

  /** The starts of what is left when `drop` (1 by activity) is left out; null when a rule is broken. */
  hold(drop: Uint8Array): readonly PlacedActivity[] | null {
    const { past, cast } = this;
    const trial = this.trial!;
    const { needs } = trial.problem;
    const kept = cast.order.filter(({ activity }) => drop[activity] === 0);
    const isUnmet = (a: number): boolean => past[a] === 0 && needs[a]!.some((b) => drop[b] === 1);
    if (kept.some(({ activity }) => isUnmet(activity)) || !trial.castAnew(kept, cast.laneOf)) return null;
    const { earliest } = trial.day.board;
    const placings = kept.map(({ activity, choice }) => ({ activity, choice, startS: earliest[activity]! }));
    return this.verify(placings) ? placings : null;
  }
}
