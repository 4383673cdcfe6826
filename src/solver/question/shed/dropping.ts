import { tollOf } from "../../problem/groups.ts";
import type { Problem } from "../../problem/problem.ts";
import type { PlacedActivity } from "../../network/verify.ts";
import type { Rest } from "./rest.ts";
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
  /** Holds only where the work stretch under way may be too long; see Rest. */
  readonly tolerant: boolean;
  readonly stands: readonly PlacedActivity[];
}

type Laid = Pick<Dropped, "drop" | "stands">;

/** Attempts for one lateness; each lays the rest of the day anew. */
const MOST_TRIES = 400;
/** Attempts, in all and for one set of must-do tasks, where leaving everything optional out does not hold. */
const UNBACKED_TRIES = 80;
const UNBACKED_TRIES_EACH = 40;
/** Sets looked at, tried or not, for one lateness. */
const MOST_SETS = 20_000;

/**
 * The set to drop that loses least, must-do tasks kept before worth and fewer tasks dropped among equals. Sets are tried from
 * the cheapest on; must-do tasks are given up only when dropping everything else does not help. Leaving more out may harm,
 * as when a pause is what keeps two crew members together; so where that is tried in vain some smaller sets are tried as
 * well, and the answer does not claim to be least when not all were. `known` holds as well and is taken where nothing
 * loses less. Cut short, what is left is filled up greedily. Gives null when nothing holds. Yields between attempts.
 */
export function* leastDropped(
  problem: Problem,
  rest: Rest,
  known: Dropped | null,
): Generator<void, Dropped | null> {
  const flags = new Uint8Array(problem.activities);
  // Dropping what something done already needs loses that as well.
  const ownLoss = (a: number): number[] =>
    [a, ...voidedBy(problem, rest, [a])].filter((b) => !rest.lost.has(b));
  const losses = new Map(rest.open.map((a) => [a, ownLoss(a)]));
  const costOf = (a: number): number => losses.get(a)!.reduce((sum, b) => sum + problem.worth[b]! * 1000, 1);
  const guarded = (a: number): boolean => losses.get(a)!.some((b) => problem.must[b] === 1);
  const byCost = (list: readonly number[]): number[] => [...list].sort((a, b) => costOf(a) - costOf(b));
  const musts = byCost(rest.open.filter(guarded));
  const others = byCost(rest.open.filter((a) => !guarded(a)));
  let tries = 0;
  let unbacked = 0;
  let sets = 0;

  const hold = (drop: readonly number[]): readonly PlacedActivity[] | null => {
    tries += 1;
    flags.fill(0);
    for (const a of drop) flags[a] = 1;
    return rest.hold(flags);
  };
  /** Leaves less out: of `list`, the last first, back in what holds, each with all that `withOf` names. */
  function* putBack(
    from: Laid,
    list: readonly number[],
    withOf: (a: number) => readonly number[],
  ): Generator<void, Laid> {
    let { drop, stands } = from;
    for (const a of list.toReversed()) {
      const back = new Set(withOf(a));
      const less = drop.filter((b) => !back.has(b));
      if (less.length === drop.length || !closed(problem, rest, less)) continue;
      yield;
      const held = hold(less);
      if (held) [drop, stands] = [less, held];
    }
    return { drop, stands };
  }
  const result = (drop: readonly number[], stands: readonly PlacedActivity[], least: boolean): Dropped => ({
    drop: rest.open.filter((a) => drop.includes(a)),
    least,
    ...lossOf(problem, rest, drop),
    tolerant: rest.tolerant,
    stands,
  });
  // No better than what is known: not worth a look.
  const noBetter = (drop: readonly number[]): boolean =>
    known !== null && !loses(lossOf(problem, rest, drop), known);

  // One must-do task more weighs more than all worth together.
  const weight = rest.open.reduce((sum, a) => sum + costOf(a), 1);
  const guardedCost = (a: number): number =>
    costOf(a) + weight * losses.get(a)!.filter((b) => problem.must[b] === 1).length;
  musts.sort((a, b) => guardedCost(a) - guardedCost(b));
  // Sums of costs are losses only while no two share what they would void, and no group says what one more counts.
  const shared = rest.open.flatMap((a) => losses.get(a)!.slice(1));
  const additive = problem.groups === null && new Set(shared).size === shared.length;
  let skipped = !additive;
  for (const lost of subsetsByCost(musts.map(guardedCost))) {
    const mustDrop = lost.items.map((i) => musts[i]!);
    if (noBetter(mustDrop)) return known && { ...known, least: !skipped };
    const required = needsOf(
      problem,
      musts.filter((a) => !mustDrop.includes(a)),
    );
    const all = [...mustDrop, ...others.filter((a) => !required.has(a))];
    yield;
    const bare = closed(problem, rest, all) ? hold(all) : null;
    // Leaving more out may also harm, as when a pause is what keeps two together: a few sets are tried all the same.
    const unbackedFrom = unbacked;
    for (const one of subsetsByCost(others.map(costOf))) {
      sets += 1;
      const spent = bare
        ? tries - unbacked >= MOST_TRIES
        : unbacked >= UNBACKED_TRIES || unbacked - unbackedFrom >= UNBACKED_TRIES_EACH;
      if (spent || sets > MOST_SETS) {
        skipped = true;
        break;
      }
      const drop = [...mustDrop, ...one.items.map((i) => others[i]!)];
      if (noBetter(drop)) return known && { ...known, least: !skipped };
      if (!closed(problem, rest, drop)) {
        if (sets % 500 === 0) yield;
        continue;
      }
      yield;
      if (!bare) unbacked += 1;
      const stands = hold(drop);
      if (stands) return result(drop, stands, !skipped);
    }
    if (bare) {
      // Cut short: everything optional out, then back in, the worthiest first.
      const { drop, stands } = yield* putBack({ drop: all, stands: bare }, others, (a) => [a]);
      return noBetter(drop) ? known && { ...known, least: false } : result(drop, stands, false);
    }
    if (tries - unbacked >= MOST_TRIES || sets > MOST_SETS) {
      skipped = true;
      break;
    }
  }
  if (known) return { ...known, least: !skipped };
  // Home at once, then back in what fits with what it needs, must-do tasks first.
  const home = everythingDropped(problem, rest);
  if (!home) return null;
  const { drop, stands } = yield* putBack(home, [...others, ...musts], (a) => [a, ...needsOf(problem, [a])]);
  return result(drop, stands, false);
}

/** Everything dropped and home at once, where that breaks no rule. */
export function everythingDropped(problem: Problem, rest: Rest): Dropped | null {
  const stands = rest.bare;
  if (!rest.verify(stands)) return null;
  return {
    drop: rest.open,
    least: false,
    ...lossOf(problem, rest, rest.open),
    tolerant: rest.tolerant,
    stands,
  };
}

/** What is lost when `drop` is: that, what is done in vain for it, and what being so late loses whatever is done. */
export function lossOf(
  problem: Problem,
  rest: Rest,
  drop: readonly number[],
): Lost & { readonly voided: readonly number[] } {
  const voided = [...new Set([...voidedBy(problem, rest, drop), ...rest.lost])].filter(
    (a) => !drop.includes(a),
  );
  return { ...tollOf(problem, (a) => rest.placed.has(a), [...drop, ...voided]), voided };
}

/** True when `a` loses less than `b`. */
export function loses(a: Lost, b: Lost): boolean {
  return a.mustLost < b.mustLost || (a.mustLost === b.mustLost && a.worthLost < b.worthLost);
}

/** True when nothing that stays needs something that is dropped. */
function closed(problem: Problem, rest: Rest, drop: readonly number[]): boolean {
  return drop.every((a) => problem.neededBy[a]!.every((b) => !rest.open.includes(b) || drop.includes(b)));
}

/** What `list` needs, directly or not. */
function needsOf(problem: Problem, list: readonly number[]): Set<number> {
  const needed = new Set<number>();
  const look = [...list];
  for (let a = look.pop(); a !== undefined; a = look.pop())
    for (const b of problem.needs[a]!) {
      if (needed.has(b)) continue;
      needed.add(b);
      look.push(b);
    }
  return needed;
}

/** What is done or under way and needs, directly or not, something of `drop`. */
function voidedBy(problem: Problem, rest: Rest, drop: readonly number[]): number[] {
  const voided = new Set<number>();
  const look = [...drop];
  for (let a = look.pop(); a !== undefined; a = look.pop())
    for (const b of problem.neededBy[a]!) {
      if (rest.past[b] === 0 || voided.has(b)) continue;
      voided.add(b);
      look.push(b);
    }
  return [...voided];
}
