/**
 * Whole-number variables as pairs of bounds that only rise. Variable x has bound 2x, its least value, and bound
 * 2x + 1, its greatest value with the sign turned. A literal is (bound, value): `low[bound] >= value`. Its negation is
 * (bound ^ 1, 1 - value). Every rise is kept on a trail with its reason, so that it can be undone and explained.
 */

/** A rise nobody forced. */
export const DECISION = -1;

/** What a reason refers to: an arc, a list of literals in the arena, a clause. */
export const ARC = 0;
export const LIST = 1;
export const CLAUSE = 2;

/** A reason as one number. */
export function reasonOf(kind: number, ref: number): number {
  return (ref << 2) | kind;
}

/** Bounds with their trail. Loops read the arrays directly; only the methods here write them. */
export class Bounds {
  readonly low: Int32Array;
  /** Values that hold before any decision. */
  readonly root: Int32Array;
  /** Trail entries: `entries` of them, by number. */
  entries = 0;
  bound: Int32Array = new Int32Array(1024);
  before: Int32Array = new Int32Array(1024);
  value: Int32Array = new Int32Array(1024);
  reason: Int32Array = new Int32Array(1024);
  previous: Int32Array = new Int32Array(1024);
  levelOf: Int32Array = new Int32Array(1024);
  /** Latest entry of each bound; -1 when it stands at its root value. */
  readonly latest: Int32Array;
  level = 0;
  /** First entry not yet looked at by the propagators. */
  unseen = 0;
  /** The rise that failed: reason, and bound and value unless the reason alone is contradictory (bound -1). */
  failedBound = -1;
  failedValue = 0;
  failedReason = DECISION;
  /** Lists of literals: [count, bound, value, bound, value, ...]. */
  arena: Int32Array = new Int32Array(4096);
  #arenaTop = 0;
  readonly #levelEntries: number[] = [];
  readonly #levelArena: number[] = [];

  constructor(variables: number) {
    this.low = new Int32Array(2 * variables);
    this.root = new Int32Array(2 * variables);
    this.latest = new Int32Array(2 * variables).fill(-1);
  }

  /** Sets least and greatest value of a variable; only before the first decision. */
  initialise(variable: number, least: number, greatest: number): void {
    this.low[2 * variable] = least;
    this.low[2 * variable + 1] = -greatest;
    this.root[2 * variable] = least;
    this.root[2 * variable + 1] = -greatest;
  }

  /** Raises `bound` to at least `value`. False when the opposite bound forbids it; then the failure is noted. */
  raise(bound: number, value: number, reason: number): boolean {
    const old = this.low[bound]!;
    if (value <= old) return true;
    if (value > -this.low[bound ^ 1]!) {
      this.failedBound = bound;
      this.failedValue = value;
      this.failedReason = reason;
      return false;
    }
    const entry = this.entries++;
    if (entry === this.bound.length) this.#grow();
    this.bound[entry] = bound;
    this.before[entry] = old;
    this.value[entry] = value;
    this.reason[entry] = reason;
    this.previous[entry] = this.latest[bound]!;
    this.levelOf[entry] = this.level;
    this.latest[bound] = entry;
    this.low[bound] = value;
    return true;
  }

  /** Notes that the literals of list `ref` contradict each other. Always false. */
  fail(ref: number): false {
    this.failedBound = -1;
    this.failedReason = reasonOf(LIST, ref);
    return false;
  }

  /** Opens a list of at most `most` literals and gives its reference; it lives until its level is undone. */
  openList(most: number): number {
    const ref = this.#arenaTop;
    if (ref + 1 + 2 * most > this.arena.length) {
      const wider = new Int32Array(2 * this.arena.length + 2 * most);
      wider.set(this.arena);
      this.arena = wider;
    }
    this.arena[ref] = 0;
    this.#arenaTop = ref + 1;
    return ref;
  }

  /** Adds a literal to the list opened last. */
  addToList(ref: number, bound: number, value: number): void {
    this.arena[this.#arenaTop] = bound;
    this.arena[this.#arenaTop + 1] = value;
    this.#arenaTop += 2;
    this.arena[ref]! += 1;
  }

  /** The entry that made the literal true; -1 when it holds before any decision. */
  entryOf(bound: number, value: number): number {
    if (this.root[bound]! >= value) return -1;
    let entry = this.latest[bound]!;
    while (this.before[entry]! >= value) entry = this.previous[entry]!;
    return entry;
  }

  openLevel(): void {
    this.#levelEntries.push(this.entries);
    this.#levelArena.push(this.#arenaTop);
    this.level += 1;
  }

  /** Undoes every level above `level`. */
  backTo(level: number): void {
    if (level >= this.level) return;
    const keep = this.#levelEntries[level]!;
    for (let entry = this.entries - 1; entry >= keep; entry -= 1) {
      const bound = this.bound[entry]!;
      this.low[bound] = this.before[entry]!;
      this.latest[bound] = this.previous[entry]!;
    }
    this.entries = keep;
    this.unseen = keep;
    this.#arenaTop = this.#levelArena[level]!;
    this.#levelEntries.length = level;
    this.#levelArena.length = level;
    this.level = level;
  }

  /** Makes what holds now, before any decision, the root: its reasons are forgotten. */
  makeRoot(): void {
    this.root.set(this.low);
    this.latest.fill(-1);
    this.entries = 0;
    this.unseen = 0;
    this.#arenaTop = 0;
  }

  #grow(): void {
    const wider = (array: Int32Array): Int32Array => {
      const copy = new Int32Array(2 * array.length);
      copy.set(array);
      return copy;
    };
    this.bound = wider(this.bound);
    this.before = wider(this.before);
    this.value = wider(this.value);
    this.reason = wider(this.reason);
    this.previous = wider(this.previous);
    this.levelOf = wider(this.levelOf);
  }
}
