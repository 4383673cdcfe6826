import type { Lanes } from "./lanes.ts";

const FOREVER = 0x3fffffff;

/**
 * What is free of every resource over time: a linked list of stretches, each from its instant to the next one's. A
 * placement remembers the stretches at its start and end, so the next search starts where its predecessors end.
 */
export class Timeline {
  readonly #lanes: Lanes;
  readonly #at: Int32Array;
  readonly #next: Int32Array;
  readonly #free: Int32Array;
  #stretches = 1;
  /** The stretches that begin where the last placement starts and ends. */
  startStretch = 0;
  endStretch = 0;

  constructor(lanes: Lanes, activities: number) {
    this.#lanes = lanes;
    const most = 2 * activities + 2;
    this.#at = new Int32Array(most);
    this.#next = new Int32Array(most);
    this.#free = new Int32Array(most * lanes.words);
    this.clear();
  }

  /** Everything free again. */
  clear(): void {
    this.#stretches = 1;
    this.#at[0] = -FOREVER;
    this.#next[0] = -1;
    this.#free.set(this.#lanes.full);
  }

  /**
   * The first start at or after `from` where `activity` fits for `length`, looked for from stretch `hint`, which must
   * not begin after `from`. Nothing is placed; `startStretch` is the stretch that holds the start.
   */
  firstFit(activity: number, length: number, from: number, hint: number): number {
    const { words, guard, need } = this.#lanes;
    const at = this.#at;
    const next = this.#next;
    const free = this.#free;
    let first = hint;
    while (next[first]! >= 0 && at[next[first]!]! <= from) first = next[first]!;
    let start = from;
    for (let stretch = first; ;) {
      let fits = true;
      for (let w = 0; w < words; w += 1) {
        const mask = guard[w]!;
        if (((free[stretch * words + w]! - need[activity * words + w]!) & mask) !== mask) fits = false;
      }
      const following = next[stretch]!;
      if (!fits) {
        start = at[following]!;
        first = following;
      } else if (following < 0 || at[following]! >= start + length) break;
      stretch = following;
    }
    this.startStretch = first;
    return start;
  }

  /** Takes what `activity` needs in `[start, start + length)`; `hint` must not begin after `start`. */
  take(activity: number, length: number, start: number, hint: number): void {
    const { words, need } = this.#lanes;
    const first = this.#splitAt(start, hint);
    const end = start + length;
    let stretch = first;
    for (;;) {
      for (let w = 0; w < words; w += 1) {
        this.#free[stretch * words + w]! -= need[activity * words + w]!;
      }
      const following = this.#next[stretch]!;
      if (following >= 0 && this.#at[following]! <= end) {
        if (this.#at[following] === end) {
          this.endStretch = following;
          break;
        }
        stretch = following;
        continue;
      }
      // The last stretch reaches beyond the end: what lies beyond gets back what was taken.
      this.endStretch = this.#splitAt(end, stretch);
      for (let w = 0; w < words; w += 1) {
        this.#free[this.endStretch * words + w]! += need[activity * words + w]!;
      }
      break;
    }
    this.startStretch = first;
  }

  /** The stretch that begins at `instant`, made if need be. */
  #splitAt(instant: number, hint: number): number {
    const at = this.#at;
    const next = this.#next;
    let stretch = hint;
    while (next[stretch]! >= 0 && at[next[stretch]!]! <= instant) stretch = next[stretch]!;
    if (at[stretch] === instant) return stretch;
    const made = this.#stretches++;
    at[made] = instant;
    next[made] = next[stretch]!;
    next[stretch] = made;
    const words = this.#lanes.words;
    for (let w = 0; w < words; w += 1) this.#free[made * words + w] = this.#free[stretch * words + w]!;
    return made;
  }
}
