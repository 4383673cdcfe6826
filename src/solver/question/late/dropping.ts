import { tollOf } from "../../problem/groups.ts";
import type { Problem } from "../../problem/problem.ts";
import type { PlacedActivity } from "../../network/verify.ts";
import type { Remainder } from "./remainder.ts";
import { subsetsByCost } from "./subsets.ts";

export interface Lost {
  readonly mustLost: number;
  readonly worthLost: number;
}

/** A set to drop that holds. */
export interface Dropped extends Lost {
  readonly drop: readonly number[];
  readonly least: boolean;
  /** Kept, but in vain: it needs something that is dropped, or being so late loses it. */
  readonly voided: readonly number[];
  /** Holds only where the work stretch under way may be too long; see Remainder. */
  readonly tolerant: boolean;
  readonly placings: readonly PlacedActivity[];
}

type Laid = Pick<Dropped, "drop" | "placings">;

/** Attempts for one lateness; each lays the rest of the day anew. */
const MOST_TRIES = 400;
/** Attempts, in all and for one set of must-do tasks, where leaving everything optional out does not hold. */
const UNBACKED_TRIES = 80;
const UNBACKED_TRIES_EACH = 40;
/** Sets looked at, tried or not, for one lateness. */
const MOST_SETS = 20_000;
const SETS_A_BREATH = 500;

/**
 * The set to drop that loses least, must-do tasks kept before worth and fewer tasks dropped among equals. Sets are tried from
 * the cheapest on; must-do tasks are given up only when dropping everything else does not help. Leaving more out may harm,
 * as when a pause is what keeps two crew members together; so where that is tried in vain some smaller sets are tried as
 * well, and the answer does not claim to be least when not all were. `known` holds as well and is taken where nothing
 * loses less. Cut short, what is left is filled up greedily. Gives null when nothing holds. Yields between attempts.
 */
export function leastDropped(
  problem: Problem,
  remainder: Remainder,
  known: Dropped | null,
): Generator<void, Dropped | null> {
  return new DropSearch(problem, remainder, known).run();
}

class DropSearch {
  private readonly problem: Problem;
  private readonly remainder: Remainder;
  private readonly known: Dropped | null;
  /** By what may be dropped: that, and what is then done in vain. */
  private readonly losses: ReadonlyMap<number, readonly number[]>;
  /** What may be dropped, cheapest first: that whose loss loses a must-do task, and all else. */
  private readonly musts: readonly number[];
  private readonly others: readonly number[];
  private readonly weight: number;
  private readonly flags: Uint8Array;
  private tries = 0;
  private unbacked = 0;
  private sets = 0;
  /** True once a set was passed over that may lose less. */
  private skipped: boolean;

  constructor(problem: Problem, remainder: Remainder, known: Dropped | null) {
    this.problem = problem;
    this.remainder = remainder;
    this.known = known;
    this.flags = new Uint8Array(problem.activities);
    // Dropping what something done already needs loses that as well.
    const ownLoss = (a: number): number[] =>
      [a, ...voidedBy(problem, remainder, [a])].filter((b) => !remainder.lost.has(b));
    this.losses = new Map(remainder.open.map((a) => [a, ownLoss(a)]));
    const byCost = [...remainder.open].sort((a, b) => this.costOf(a) - this.costOf(b));
    // One must-do task more weighs more than all worth together.
    this.weight = remainder.open.reduce((sum, a) => sum + this.costOf(a), 1);
    this.musts = byCost
      .filter((a) => this.mustsIn(a) > 0)
      .sort((a, b) => this.guardedCostOf(a) - this.guardedCostOf(b));
    this.others = byCost.filter((a) => this.mustsIn(a) === 0);
    // Sums of costs are losses only while no two share what they would void, and no group says what one more counts.
    const shared = remainder.open.flatMap((a) => this.losses.get(a)!.slice(1));
    this.skipped = problem.groups !== null || new Set(shared).size < shared.length;
  }

  *run(): Generator<void, Dropped | null> {
    const { known, musts } = this;
    for (const { items } of subsetsByCost(musts.map((a) => this.guardedCostOf(a)))) {
      const mustDrop = items.map((i) => musts[i]!);
      if (known && this.isNoBetter(mustDrop, known)) return { ...known, least: !this.skipped };
      const made = yield* this.beside(mustDrop);
      if (made) return made;
      if (this.tries - this.unbacked >= MOST_TRIES || this.sets > MOST_SETS) {
        this.skipped = true;
        break;
      }
    }
    return known ? { ...known, least: !this.skipped } : yield* this.fromHome();
  }

  /** `mustDrop` dropped, and the least of what is optional; null where no set tried holds. */
  private *beside(mustDrop: readonly number[]): Generator<void, Dropped | null> {
    const { problem, remainder, known, others } = this;
    const staying = this.musts.filter((a) => !mustDrop.includes(a));
    const required = needsOf(problem, staying);
    const all = [...mustDrop, ...others.filter((a) => !required.has(a))];
    yield;
    const bare = isClosed(problem, remainder, all) ? this.hold(all) : null;
    const made = yield* this.cheapest(mustDrop, bare !== null);
    if (made || !bare) return made;
    // Cut short: everything optional out, then back in, the worthiest first.
    const { drop, placings } = yield* this.putBack({ drop: all, placings: bare }, others, (a) => [a]);
    if (known && this.isNoBetter(drop, known)) return { ...known, least: false };
    return this.dropped(drop, placings, false);
  }

  /**
   * The cheapest set of optional tasks that holds when dropped with `mustDrop`; null where none tried does. `backed`: all of them together
   * do. Leaving more out may also harm, as when a pause is what keeps two together: a few sets are tried all the same.
   */
  private *cheapest(mustDrop: readonly number[], backed: boolean): Generator<void, Dropped | null> {
    const { problem, remainder, known, others } = this;
    const unbackedFrom = this.unbacked;
    for (const { items } of subsetsByCost(others.map((a) => this.costOf(a)))) {
      this.sets += 1;
      if (this.isSpent(backed, unbackedFrom)) {
        this.skipped = true;
        return null;
      }
      const drop = [...mustDrop, ...items.map((i) => others[i]!)];
      if (known && this.isNoBetter(drop, known)) return { ...known, least: !this.skipped };
      if (!isClosed(problem, remainder, drop)) {
        if (this.sets % SETS_A_BREATH === 0) yield;
        continue;
      }
      yield;
      if (!backed) this.unbacked += 1;
      const placings = this.hold(drop);
      if (placings) return this.dropped(drop, placings, !this.skipped);
    }
    return null;
  }

  private isSpent(backed: boolean, unbackedFrom: number): boolean {
    const { tries, unbacked } = this;
    if (this.sets > MOST_SETS) return true;
    if (backed) return tries - unbacked >= MOST_TRIES;
    return unbacked >= UNBACKED_TRIES || unbacked - unbackedFrom >= UNBACKED_TRIES_EACH;
  }

  /** Home at once, then back in what fits with what it needs, must-do tasks first. */
  private *fromHome(): Generator<void, Dropped | null> {
    const { problem, remainder, others, musts } = this;
    const home = everythingDropped(problem, remainder);
    if (!home) return null;
    const { drop, placings } = yield* this.putBack(home, [...others, ...musts], (a) => [
      a,
      ...needsOf(problem, [a]),
    ]);
    return this.dropped(drop, placings, false);
  }

  /** Leaves less out: of `list`, the last first, back in what holds, each with all that `withOf` names. */
  private *putBack(
    from: Laid,
    list: readonly number[],
    withOf: (a: number) => readonly number[],
  ): Generator<void, Laid> {
    let { drop, placings } = from;
    for (const a of list.toReversed()) {
      const back = new Set(withOf(a));
      const less = drop.filter((b) => !back.has(b));
      if (less.length === drop.length || !isClosed(this.problem, this.remainder, less)) continue;
      yield;
      const placed = this.hold(less);
      if (placed) [drop, placings] = [less, placed];
    }
    return { drop, placings };
  }

  private hold(drop: readonly number[]): readonly PlacedActivity[] | null {
    this.tries += 1;
    this.flags.fill(0);
    for (const a of drop) this.flags[a] = 1;
    return this.remainder.hold(this.flags);
  }

  private dropped(drop: readonly number[], placings: readonly PlacedActivity[], least: boolean): Dropped {
    const { problem, remainder } = this;
    return {
      drop: remainder.open.filter((a) => drop.includes(a)),
      least,
      ...lossOf(problem, remainder, drop),
      tolerant: remainder.tolerant,
      placings,
    };
  }

  /** True where `drop` loses as much as what is known: not worth a look. */
  private isNoBetter(drop: readonly number[], known: Dropped): boolean {
    return !loses(lossOf(this.problem, this.remainder, drop), known);
  }

  private mustsIn(a: number): number {
    return this.losses.get(a)!.filter((b) => this.problem.must[b] === 1).length;
  }

  private costOf(a: number): number {
    return this.losses.get(a)!.reduce((sum, b) => sum + this.problem.worth[b]! * 1000, 1);
  }

  private guardedCostOf(a: number): number {
    return this.costOf(a) + this.weight * this.mustsIn(a);
  }
}

/** Everything dropped and home at once, where that breaks no rule. */
export function everythingDropped(problem: Problem, remainder: Remainder): Dropped | null {
  const placings = remainder.bare;
  if (!remainder.verify(placings)) return null;
  return {
    drop: remainder.open,
    least: false,
    ...lossOf(problem, remainder, remainder.open),
    tolerant: remainder.tolerant,
    placings,
  };
}

/** What is lost when `drop` is: that, what is done in vain for it, and what being so late loses whatever is done. */
export function lossOf(
  problem: Problem,
  remainder: Remainder,
  drop: readonly number[],
): Lost & { readonly voided: readonly number[] } {
  const voided = [...new Set([...voidedBy(problem, remainder, drop), ...remainder.lost])].filter(
    (a) => !drop.includes(a),
  );
  return { ...tollOf(problem, (a) => remainder.placed.has(a), [...drop, ...voided]), voided };
}

/** True when `a` loses less than `b`. */
export function loses(a: Lost, b: Lost): boolean {
  return a.mustLost < b.mustLost || (a.mustLost === b.mustLost && a.worthLost < b.worthLost);
}

/** True when nothing that stays needs something that is dropped. */
function isClosed(problem: Problem, remainder: Remainder, drop: readonly number[]): boolean {
  return drop.every((a) =>
    problem.neededBy[a]!.every((b) => !remainder.open.includes(b) || drop.includes(b)),
  );
}

/** What `list` needs, directly or not. */
function needsOf(problem: Problem, list: readonly number[]): Set<number> {
  const needed = new Set<number>();
  const view = [...list];
  for (let a = view.pop(); a !== undefined; a = view.pop())
    for (const b of problem.needs[a]!) {
      if (needed.has(b)) continue;
      needed.add(b);
      view.push(b);
    }
  return needed;
}

/** What is done or under way and needs, directly or not, something of `drop`. */
function voidedBy(problem: Problem, remainder: Remainder, drop: readonly number[]): number[] {
  const voided = new Set<number>();
  const view = [...drop];
  for (let a = view.pop(); a !== undefined; a = view.pop())
    for (const b of problem.neededBy[a]!) {
      if (remainder.past[b] === 0 || voided.has(b)) continue;
      voided.add(b);
      view.push(b);
    }
  return [...voided];
}
