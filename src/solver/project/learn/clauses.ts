import { type Bounds, CLAUSE, reasonOf } from "./bounds.ts";
import type { Watched } from "./watches.ts";
import { WATCH, Watches } from "./watches.ts";

const HEAD = 2;
const GLUE = 1;

/**
 * Learned clauses: of each, at least one literal is true. Two literals of a clause are watched; a watch lies on the
 * bound whose rise to a threshold makes the literal false (after Moskewicz et al. 2001, on bounds instead of Booleans).
 */
export class Clauses {
  /** By clause reference: [literals, glue, bound, value, bound, value, ...]. */
  data = new Int32Array(1 << 14);
  readonly #bounds: Bounds;
  #top = 0;
  #count = 0;
  readonly #watches: Watches;
  /** The bound in hand, whose rise is passed on. */
  #risen = 0;

  constructor(bounds: Bounds) {
    this.#bounds = bounds;
    this.#watches = new Watches(bounds.low);
  }

  get count(): number {
    return this.#count;
  }

  /**
   * Adds a clause of at least two literals, flat (bound, value) pairs, the first two to be watched. `glue` is the
   * number of decision levels it spans: few is good (Audemard & Simon 2009).
   */
  add(literals: readonly number[], glue: number): number {
    const ref = this.#top;
    const need = ref + HEAD + literals.length;
    if (need > this.data.length) {
      const wider = new Int32Array(2 * need);
      wider.set(this.data);
      this.data = wider;
    }
    this.data[ref] = literals.length / 2;
    this.data[ref + GLUE] = glue;
    for (let k = 0; k < literals.length; k += 1) this.data[ref + HEAD + k] = literals[k]!;
    this.#top = need;
    this.#count += 1;
    this.#watch(ref, ref + HEAD, ref + HEAD + 2);
    this.#watch(ref, ref + HEAD + 2, ref + HEAD);
    return ref;
  }

  /** Puts the other literals of clause `ref`, negated, through `add`: why its first literal had to hold. */
  explain(ref: number, add: (bound: number, value: number) => void): void {
    const { data } = this;
    const end = ref + HEAD + 2 * data[ref]!;
    for (let at = ref + HEAD + 2; at < end; at += 2) add(data[at]! ^ 1, 1 - data[at + 1]!);
  }

  /** Passes on that `bound` has risen from `before` to `value`. False on failure. */
  propagate(bound: number, before: number, value: number): boolean {
    this.#risen = bound;
    return this.#watches.between(bound, before, value, this.#passOn);
  }

  /** Passes on that the bound in hand is at `threshold` or above. */
  readonly #passOn = (watched: Watched, threshold: number): boolean => {
    const bounds = this.#bounds;
    const { low } = bounds;
    const { data } = this;
    const { list, used } = watched;
    const risen = this.#risen;
    let kept = 0;
    let fine = true;
    let read = 0;
    for (; fine && read < used; read += WATCH) {
      if (low[list[read + 1]!]! >= list[read + 2]!) {
        if (kept !== read) watched.move(read, kept);
        kept += WATCH;
        continue;
      }
      const ref = list[read]!;
      const first = ref + HEAD;
      if (data[first] === (risen ^ 1) && data[first + 1] === 1 - threshold) this.#swap(first, first + 2);
      const isTrue = low[data[first]!]! >= data[first + 1]!;
      const at = isTrue ? first : this.#notFalse(ref);
      if (at > first) {
        this.#swap(first + 2, at);
        this.#watch(ref, first + 2, first);
        continue;
      }
      list[kept] = ref;
      list[kept + 1] = data[first]!;
      list[kept + 2] = data[first + 1]!;
      kept += WATCH;
      fine = isTrue || bounds.raise(data[first]!, data[first + 1]!, reasonOf(CLAUSE, ref));
    }
    if (kept !== read) list.copyWithin(kept, read, used);
    watched.used = used - (read - kept);
    return fine;
  };

  /** Where in clause `ref` a literal that is not false stands behind the two that are watched; -1 where there is none. */
  #notFalse(ref: number): number {
    const { data } = this;
    const { low } = this.#bounds;
    const end = ref + HEAD + 2 * data[ref]!;
    for (let at = ref + HEAD + 4; at < end; at += 2) if (low[data[at]! ^ 1]! < 1 - data[at + 1]!) return at;
    return -1;
  }

  /**
   * Forgets the half of the clauses with the most glue, older ones first; those of glue up to 2 stay. Only before any
   * decision, when no clause is a reason. Literals false at the root are cut away, clauses true at the root dropped.
   */
  reduce(): void {
    const { data } = this;
    const refs: number[] = [];
    for (let ref = 0; ref < this.#top; ref += HEAD + 2 * data[ref]!) refs.push(ref);
    const worst = [...refs.keys()].sort((a, b) => data[refs[b]! + GLUE]! - data[refs[a]! + GLUE]! || a - b);
    const forget = new Set(worst.slice(0, refs.length >> 1).filter((k) => data[refs[k]! + GLUE]! > 2));
    const kept = refs
      .filter((_, k) => !forget.has(k))
      .map((ref) => ({
        glue: data[ref + GLUE]!,
        literals: this.#open(ref),
      }));
    this.#top = 0;
    this.#count = 0;
    this.#watches.clear();
    for (const { glue, literals } of kept) if (literals && literals.length >= 4) this.add(literals, glue);
  }

  /** The literals of a clause that are not false at the root; null when one is true there. */
  #open(ref: number): number[] | null {
    const { low } = this.#bounds;
    const literals: number[] = [];
    const end = ref + HEAD + 2 * this.data[ref]!;
    for (let at = ref + HEAD; at < end; at += 2) {
      const bound = this.data[at]!;
      const value = this.data[at + 1]!;
      if (low[bound]! >= value) return null;
      if (low[bound ^ 1]! < 1 - value) literals.push(bound, value);
    }
    return literals;
  }

  #swap(a: number, b: number): void {
    const { data } = this;
    const bound = data[a]!;
    const value = data[a + 1]!;
    data[a] = data[b]!;
    data[a + 1] = data[b + 1]!;
    data[b] = bound;
    data[b + 1] = value;
  }

  /** Watches the literal at `at`, `other` beside it. */
  #watch(ref: number, at: number, other: number): void {
    const { data } = this;
    const watched = this.#watches.at(data[at]! ^ 1, 1 - data[at + 1]!);
    watched.add(ref, data[other]!, data[other + 1]!);
  }
}
