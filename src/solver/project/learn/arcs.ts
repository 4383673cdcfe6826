import { adjacency, type Adjacency } from "../network.ts";
import { ARC, type Bounds, LIST, reasonOf } from "./bounds.ts";

/**
 * Differences: `low[target] >= low[source] + weight`, always or while a guard literal is true. A difference between
 * two variables is two arcs, one for each kind of bound. An arc that would fail makes its guard false.
 */
export class Arcs {
  readonly source: Int32Array;
  readonly target: Int32Array;
  readonly weight: Int32Array;
  /** Guard literal: its bound, -1 for none, and its value. */
  readonly guard: Int32Array;
  readonly guardValue: Int32Array;
  readonly #bounds: Bounds;
  readonly #out: Adjacency;
  readonly #guarded: Adjacency;
  readonly #guardedArcs: Int32Array;

  constructor(bounds: Bounds, list: readonly ArcParts[]) {
    this.#bounds = bounds;
    const count = bounds.low.length;
    this.source = Int32Array.from(list, (arc) => arc.source);
    this.target = Int32Array.from(list, (arc) => arc.target);
    this.weight = Int32Array.from(list, (arc) => arc.weight);
    this.guard = Int32Array.from(list, (arc) => arc.guard ?? -1);
    this.guardValue = Int32Array.from(list, (arc) => arc.guardValue ?? 0);
    this.#out = adjacency(count, this.source);
    const guarded = list.flatMap((arc, number) => (arc.guard === undefined ? [] : [number]));
    this.#guardedArcs = Int32Array.from(guarded);
    this.#guarded = adjacency(
      count,
      this.#guardedArcs.map((arc) => this.guard[arc]!),
    );
  }

  /** Passes on that `bound` has risen. False on failure. */
  propagate(bound: number): boolean {
    const bounds = this.#bounds;
    const { low } = bounds;
    const { start, list } = this.#out;
    for (let k = start[bound]!; k < start[bound + 1]!; k += 1) {
      const arc = list[k]!;
      if (low[bound]! + this.weight[arc]! <= low[this.target[arc]!]!) continue;
      if (!this.#pass(arc)) return false;
    }
    const guarded = this.#guarded;
    for (let k = guarded.start[bound]!; k < guarded.start[bound + 1]!; k += 1) {
      const arc = this.#guardedArcs[guarded.list[k]!]!;
      if (low[bound]! >= this.guardValue[arc]! && !this.#pass(arc)) return false;
    }
    return true;
  }

  /** Looks at every arc once, for the start. */
  propagateAll(): boolean {
    for (let arc = 0; arc < this.source.length; arc += 1) if (!this.#pass(arc)) return false;
    return true;
  }

  #pass(arc: number): boolean {
    const bounds = this.#bounds;
    const { low } = bounds;
    const target = this.target[arc]!;
    const reach = low[this.source[arc]!]! + this.weight[arc]!;
    if (reach <= low[target]!) return true;
    const guard = this.guard[arc]!;
    if (guard < 0 || low[guard]! >= this.guardValue[arc]!)
      return bounds.raise(target, reach, reasonOf(ARC, arc));
    if (reach <= -low[target ^ 1]!) return true;
    const against = 1 - this.guardValue[arc]!;
    if (low[guard ^ 1]! >= against) return true;
    const ref = bounds.openList(2);
    bounds.addToList(ref, this.source[arc]!, low[this.source[arc]!]!);
    bounds.addToList(ref, target ^ 1, 1 - reach);
    return bounds.raise(guard ^ 1, against, reasonOf(LIST, ref));
  }
}

/** An arc in the making. */
export interface ArcParts {
  readonly source: number;
  readonly target: number;
  readonly weight: number;
  readonly guard?: number;
  readonly guardValue?: number;
}

/** `value of to >= value of from + least`, as its two arcs; with a guard, only while that is true. */
export function difference(
  from: number,
  to: number,
  least: number,
  guard?: { guard: number; guardValue: number },
): ArcParts[] {
  return [
    { source: 2 * from, target: 2 * to, weight: least, ...guard },
    { source: 2 * to + 1, target: 2 * from + 1, weight: least, ...guard },
  ];
}
