import { NEVER } from "../problem/problem.ts";
import { opensAt } from "./completion.ts";
import type { RouteClass } from "./routes.ts";

/** A partial route over a set of nodes: see Pricer's labels. */
interface State {
  readonly last: number;
  readonly endS: number;
  readonly spentS: number;
  readonly latestS: number;
  readonly sums: readonly number[];
}

/** Sets between two looks at the clock. */
const BURST = 256;

/**
 * For every set of nodes whether a route on its own can visit them all (dynamic programming over sets: Held & Karp 1962, J SIAM
 * 10:196), with windows, time out and sums. Only for a few nodes: there are 2 ** count sets.
 */
export function* possibleSets(one: RouteClass): Generator<void, Uint8Array> {
  const { count } = one;
  const possible = new Uint8Array(1 << count);
  const states: (State[] | undefined)[] = new Array<State[] | undefined>(1 << count);
  possible[0] = 1;
  states[0] = [{ last: count, endS: one.leaveS, spentS: 0, latestS: NEVER, sums: one.sums.map(() => 0) }];
  for (let set = 0; set < possible.length; set += 1) {
    const here = states[set];
    states[set] = undefined;
    if (set % BURST === BURST - 1) yield;
    if (!here) continue;
    possible[set] = 1;
    for (let c = 0; c < count; c += 1) if ((set & (1 << c)) === 0) extendAll(one, states, set, here, c);
  }
  return possible;
}

/** Goes on from the states `here` of a set to node `c`. */
function extendAll(
  one: RouteClass,
  states: (State[] | undefined)[],
  set: number,
  here: readonly State[],
  c: number,
): void {
  for (const state of here) {
    const next = extended(one, state, c);
    if (next) enter((states[set | (1 << c)] ??= []), next);
  }
}

function extended(one: RouteClass, state: State, c: number): State | null {
  const size = one.count + 1;
  const legS = one.legS[state.last * size + c]!;
  const home = c * size + one.count;
  const startS = opensAt(one, c, state.endS + legS);
  const endS = startS + one.lastsS[c]!;
  if (endS + one.legS[home]! > one.backByS) return null;
  const closesS = one.openToS[one.openStart[c + 1]! - 1]!;
  const latestS = Math.min(state.latestS, closesS - state.spentS - legS);
  const spentS = state.spentS + legS + one.lastsS[c]!;
  const outS = Math.max(endS - latestS, spentS) + one.legS[home]!;
  if (one.outBinds && outS > one.outS) return null;
  const sums = one.sums.map((sum, k) => state.sums[k]! + sum.leg[state.last * size + c]! + sum.node[c]!);
  if (one.sums.some((sum, k) => sums[k]! + sum.leg[home]! + sum.perSecond * outS > sum.available))
    return null;
  return { last: c, endS, spentS, latestS, sums };
}

/** Adds `next` to the states of its set, of which none is worse than another in everything. */
function enter(states: State[], next: State): void {
  if (states.some((other) => noWorse(other, next))) return;
  let kept = 0;
  for (const other of states) if (!noWorse(next, other)) states[kept++] = other;
  states.length = kept;
  states.push(next);
}

function noWorse(a: State, b: State): boolean {
  return (
    a.last === b.last &&
    a.endS <= b.endS &&
    a.spentS <= b.spentS &&
    a.latestS >= b.latestS &&
    a.sums.every((sum, k) => sum <= b.sums[k]!)
  );
}
