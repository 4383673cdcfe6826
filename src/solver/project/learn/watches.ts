/** Numbers of a watch: the clause, and a bound and value that are another literal of it. */
export const WATCH = 3;

/** The watches of one literal: `used` numbers of `list`, WATCH for each. */
export class Watched {
  list = new Int32Array(4 * WATCH);
  used = 0;

  add(clause: number, bound: number, value: number): void {
    if (this.used === this.list.length) {
      const wider = new Int32Array(2 * this.list.length);
      wider.set(this.list);
      this.list = wider;
    }
    this.list[this.used] = clause;
    this.list[this.used + 1] = bound;
    this.list[this.used + 2] = value;
    this.used += WATCH;
  }

  /** Moves the watch at `from` to `to`. */
  move(from: number, to: number): void {
    for (let k = 0; k < WATCH; k += 1) this.list[to + k] = this.list[from + k]!;
  }
}

/** Watches by the bound and the value to which that has to rise to make what is watched false. */
export class Watches {
  readonly #least: Int32Array;
  readonly #byValue: (Watched | undefined)[][];
  /** Values that are watched, by bound, as they came. */
  readonly #values: number[][];

  /** `least` are the values that the bounds begin with. */
  constructor(least: Int32Array) {
    this.#least = least.slice();
    this.#byValue = Array.from(least, () => []);
    this.#values = Array.from(least, () => []);
  }

  /** What is watched of `bound` at `value`. */
  at(bound: number, value: number): Watched {
    const lists = this.#byValue[bound]!;
    const k = value - this.#least[bound]!;
    const known = lists[k];
    if (known) return known;
    this.#values[bound]!.push(value);
    return (lists[k] = new Watched());
  }

  /** Passes what is watched of `bound` above `before`, up to `value`, through `pass`, until that is false; false then. */
  between(
    bound: number,
    before: number,
    value: number,
    pass: (watched: Watched, value: number) => boolean,
  ): boolean {
    const lists = this.#byValue[bound]!;
    const least = this.#least[bound]!;
    const values = this.#values[bound]!;
    // A long leap passes more values than are watched.
    if (value - before > values.length) {
      for (let k = 0; k < values.length; k += 1) {
        const one = values[k]!;
        if (one > before && one <= value && !pass(lists[one - least]!, one)) return false;
      }
      return true;
    }
    for (let one = before + 1; one <= value; one += 1) {
      const watched = lists[one - least];
      if (watched && watched.used > 0 && !pass(watched, one)) return false;
    }
    return true;
  }

  /** Forgets all. */
  clear(): void {
    for (const lists of this.#byValue) lists.length = 0;
    for (const values of this.#values) values.length = 0;
  }
}
