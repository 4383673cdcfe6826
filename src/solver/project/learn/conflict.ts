import type { Arcs } from "./arcs.ts";
import { ARC, type Bounds, CLAUSE, DECISION } from "./bounds.ts";
import type { Clauses } from "./clauses.ts";

const NOTHING = -0x7fffffff;
/** How far back a literal may follow from those that are needed anyhow. */
const DEPTH = 8;

/**
 * Turns a failure into a clause: reasons are resolved backward along the trail until one literal of the latest level
 * is left (first unique implication point: Marques-Silva & Sakallah 1999; over bounds: Ohrimenko, Stuckey & Codish
 * 2009). Of two literals on one bound the stronger stands for both, so a clause has at most one for each bound, and
 * literals are kept as weak as their use allows. What follows from the others of a clause, by reasons of reasons, is left out
 * (Sörensson & Biere 2009).
 */
export class Conflict {
  /** The clause learned last, flat (bound, value) pairs: the asserting literal, then one of the level to go back to. */
  readonly clause: number[] = [];
  /** The level at which the clause makes its first literal true. */
  backLevel = 0;
  /** Number of levels in the clause. */
  glue = 0;
  readonly #bounds: Bounds;
  readonly #arcs: Arcs;
  readonly #clauses: Clauses;
  readonly #met: (bound: number, value: number) => void;
  readonly #need: Int32Array;
  readonly #entry: Int32Array;
  readonly #touched: number[] = [];
  readonly #levels = new Set<number>();
  /** Levels of all that is needed: what was made true at another one cannot follow from that. */
  readonly #levelsNeeded = new Set<number>();
  /** Entries that were seen not to follow. */
  readonly #failed = new Set<number>();
  #open = 0;
  #level = 0;

  /** `met` hears of every literal the conflict involves. */
  constructor(bounds: Bounds, arcs: Arcs, clauses: Clauses, met: (bound: number, value: number) => void) {
    this.#bounds = bounds;
    this.#arcs = arcs;
    this.#clauses = clauses;
    this.#met = met;
    this.#need = new Int32Array(bounds.low.length).fill(NOTHING);
    this.#entry = new Int32Array(bounds.low.length);
  }

  /** Learns from the failure noted in the bounds. False when it holds before any decision: nothing is feasible. */
  analyse(): boolean {
    const bounds = this.#bounds;
    this.clause.length = 0;
    this.#open = 0;
    // With the level unknown, every literal counts as open; the count is set right below.
    this.#level = -1;
    if (bounds.failedBound >= 0) this.#add(bounds.failedBound ^ 1, 1 - bounds.failedValue);
    this.#explain(bounds.failedValue, bounds.failedReason, this.#add);
    for (const bound of this.#touched) {
      if (this.#need[bound] !== NOTHING) {
        this.#level = Math.max(this.#level, bounds.levelOf[this.#entry[bound]!]!);
      }
    }
    if (this.#level <= 0) {
      this.#forget();
      return false;
    }
    this.#open = 0;
    for (const bound of this.#touched) {
      if (this.#need[bound] !== NOTHING && bounds.levelOf[this.#entry[bound]!] === this.#level)
        this.#open += 1;
    }
    const asserting = this.#resolve();
    this.#collect(asserting);
    this.#forget();
    return true;
  }

  /** Resolves from the top of the trail down; gives the bound of the one literal of the level that is left. */
  #resolve(): number {
    const bounds = this.#bounds;
    for (let entry = bounds.entries - 1; ; entry -= 1) {
      const bound = bounds.bound[entry]!;
      const value = this.#need[bound]!;
      if (value === NOTHING || this.#entry[bound] !== entry) continue;
      if (this.#open === 1) return bound;
      this.#need[bound] = NOTHING;
      this.#open -= 1;
      this.#explain(value, bounds.reason[entry]!, this.#add);
    }
  }

  #collect(asserting: number): void {
    const bounds = this.#bounds;
    const levels = this.#levels;
    levels.clear();
    this.#levelsNeeded.clear();
    this.#failed.clear();
    for (const bound of this.#touched)
      if (this.#need[bound] !== NOTHING) this.#levelsNeeded.add(bounds.levelOf[this.#entry[bound]!]!);
    this.clause.push(asserting ^ 1, 1 - this.#need[asserting]!);
    this.backLevel = 0;
    for (const bound of new Set(this.#touched)) {
      if (bound === asserting || this.#need[bound] === NOTHING || this.#isImplied(bound)) continue;
      const level = bounds.levelOf[this.#entry[bound]!]!;
      levels.add(level);
      this.clause.push(bound ^ 1, 1 - this.#need[bound]!);
      if (level <= this.backLevel) continue;
      this.backLevel = level;
      this.#toSecond(this.clause.length - 2);
    }
    this.glue = levels.size + 1;
  }

  #toSecond(at: number): void {
    const { clause } = this;
    const [bound, value] = [clause[2]!, clause[3]!];
    clause[2] = clause[at]!;
    clause[3] = clause[at + 1]!;
    clause[at] = bound;
    clause[at + 1] = value;
  }

  /** True when the literal follows from earlier ones that are needed anyhow. */
  #isImplied(bound: number): boolean {
    return this.#follows(this.#entry[bound]!, this.#need[bound]!, DEPTH);
  }

  /** True when the literal that `entry` makes true, `value` of its bound, follows so, in so many steps at most. */
  #follows(entry: number, value: number, depth: number): boolean {
    const bounds = this.#bounds;
    const reason = bounds.reason[entry]!;
    if (reason === DECISION || this.#failed.has(entry)) return false;
    let implied = true;
    this.#explain(value, reason, (other, least) => {
      if (!implied || bounds.root[other]! >= least) return;
      if (this.#need[other]! >= least && this.#entry[other]! < entry) return;
      const behind = bounds.entryOf(other, least);
      implied =
        depth > 0 &&
        this.#levelsNeeded.has(bounds.levelOf[behind]!) &&
        this.#follows(behind, least, depth - 1);
    });
    if (!implied) this.#failed.add(entry);
    return implied;
  }

  readonly #add = (bound: number, value: number): void => {
    if (this.#need[bound]! >= value) return;
    const bounds = this.#bounds;
    const entry = bounds.entryOf(bound, value);
    if (entry < 0) return;
    this.#met(bound, value);
    if (this.#need[bound] === NOTHING) this.#touched.push(bound);
    else if (bounds.levelOf[this.#entry[bound]!] === this.#level) this.#open -= 1;
    this.#need[bound] = value;
    this.#entry[bound] = entry;
    if (bounds.levelOf[entry] === this.#level) this.#open += 1;
  };

  #explain(value: number, reason: number, add: (bound: number, value: number) => void): void {
    if (reason === DECISION) return;
    const ref = reason >> 2;
    const kind = reason & 3;
    if (kind === ARC) {
      const { source, weight, guard, guardValue } = this.#arcs;
      add(source[ref]!, value - weight[ref]!);
      if (guard[ref]! >= 0) add(guard[ref]!, guardValue[ref]!);
    } else if (kind === CLAUSE) this.#clauses.explain(ref, add);
    else {
      const { arena } = this.#bounds;
      const end = ref + 1 + 2 * arena[ref]!;
      for (let at = ref + 1; at < end; at += 2) add(arena[at]!, arena[at + 1]!);
    }
  }

  #forget(): void {
    for (const bound of this.#touched) this.#need[bound] = NOTHING;
    this.#touched.length = 0;
  }
}
