import type { Problem } from "../problem.ts";
import type { Stand } from "../verify.ts";
import type { Rest } from "./rest.ts";
import { subsetsByCost } from "./subsets.ts";

/** A set to drop that holds. */
export interface Dropped {
  readonly drop: readonly number[];
  readonly mustLost: number;
  readonly worthLost: number;
  readonly least: boolean;
  readonly stands: readonly Stand[];
}

/** Attempts for one lateness; each lays the rest of the day anew. */
const MOST_TRIES = 400;
/** Sets looked at, tried or not, for one lateness. */
const MOST_SETS = 20_000;

/**
 * The set to drop that loses least, must-do tasks kept before worth and fewer tasks dropped among equals. Sets are tried from
 * the cheapest on; must-do tasks are given up only when dropping everything else does not help (leaving more out never
 * makes a day worse, which the rules here see to but for rounding of rests). No set cheaper than `atLeast` is taken: who is later
 * never loses less. Cut short, what is left is filled up greedily. Gives null when nothing holds. Yields between attempts.
 */
export function* leastDropped(
  problem: Problem,
  rest: Rest,
  atLeast: { readonly mustLost: number; readonly worthLost: number },
): Generator<void, Dropped | null> {
  const flags = new Uint8Array(problem.activities);
  const costOf = (a: number): number => problem.worth[a]! * 1000 + 1;
  const byCost = (list: readonly number[]): number[] => [...list].sort((a, b) => costOf(a) - costOf(b));
  const musts = byCost(rest.open.filter((a) => problem.must[a] === 1));
  const others = byCost(rest.open.filter((a) => problem.must[a] === 0));
  let tries = 0;
  let sets = 0;

  const hold = (drop: readonly number[]): readonly Stand[] | null => {
    tries += 1;
    flags.fill(0);
    for (const a of drop) flags[a] = 1;
    return rest.hold(flags);
  };
  const result = (drop: readonly number[], stands: readonly Stand[], least: boolean): Dropped => ({
    drop: rest.open.filter((a) => drop.includes(a)),
    mustLost: drop.filter((a) => problem.must[a] === 1).length,
    worthLost: drop.reduce((sum, a) => sum + problem.worth[a]!, 0),
    least,
    stands,
  });
  const cheap = (mustLost: number, worthLost: number): boolean =>
    mustLost < atLeast.mustLost || (mustLost === atLeast.mustLost && worthLost < atLeast.worthLost);

  // One must-do task more weighs more than all worth together.
  const weight = rest.open.reduce((sum, a) => sum + costOf(a), 1);
  for (const lost of subsetsByCost(musts.map((a) => costOf(a) + weight))) {
    const mustDrop = lost.items.map((i) => musts[i]!);
    const all = [...mustDrop, ...others];
    const worthAll = all.reduce((sum, a) => sum + problem.worth[a]!, 0);
    if (cheap(mustDrop.length, worthAll)) continue;
    yield;
    const bare = hold(all);
    if (!bare) {
      if (tries > MOST_TRIES) break;
      continue;
    }
    const mustWorth = mustDrop.reduce((sum, a) => sum + problem.worth[a]!, 0);
    for (const one of subsetsByCost(others.map(costOf))) {
      sets += 1;
      if (tries > MOST_TRIES || sets > MOST_SETS) break;
      const drop = [...mustDrop, ...one.items.map((i) => others[i]!)];
      const worthLost = drop.reduce((sum, a) => sum + problem.worth[a]!, 0);
      if (cheap(mustDrop.length, worthLost) || !closed(problem, rest, drop)) {
        if (sets % 500 === 0) yield;
        continue;
      }
      yield;
      const stands = hold(drop);
      if (stands) return result(drop, stands, true);
    }
    // Cut short: everything optional out, then back in, the worthiest first.
    let drop = all;
    let stands = bare;
    for (const a of [...others].reverse()) {
      const less = drop.filter((b) => b !== a);
      const worthLost =
        mustWorth + less.reduce((sum, b) => sum + (problem.must[b] === 1 ? 0 : problem.worth[b]!), 0);
      if (cheap(mustDrop.length, worthLost) || !closed(problem, rest, less)) continue;
      yield;
      const back = hold(less);
      if (!back) continue;
      drop = less;
      stands = back;
    }
    return result(drop, stands, false);
  }
  return null;
}

/** True when nothing that stays needs something that is dropped. */
function closed(problem: Problem, rest: Rest, drop: readonly number[]): boolean {
  return drop.every((a) => problem.neededBy[a]!.every((b) => !rest.open.includes(b) || drop.includes(b)));
}
