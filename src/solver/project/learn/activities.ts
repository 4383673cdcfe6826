const LARGEST = 1e100;

/**
 * How often literals "variable is at least value" took part in recent conflicts (variable-state independent decaying
 * sum: Moskewicz et al. 2001; on bound literals: Schutt et al. 2013), with the most active undecided one on top.
 */
export class Activities {
  readonly variable: number[] = [];
  readonly value: number[] = [];
  readonly #low: Int32Array;
  readonly #decay: number;
  readonly #score: number[] = [];
  readonly #ids = new Map<number, number>();
  /** A binary heap of ids by score, and where each id stands in it (-1: nowhere). */
  readonly #heap: number[] = [];
  readonly #place: number[] = [];
  /** Decided ids taken off the heap, and how many there were when each level was opened. */
  readonly #aside: number[] = [];
  readonly #levels: number[] = [];
  #bump = 1;

  /** `low` are the bounds of Bounds. */
  constructor(low: Int32Array, decay: number) {
    this.#low = low;
    this.#decay = decay;
  }

  /** Raises the score of a literal, whichever sign it comes with. */
  bump(bound: number, value: number): void {
    const x = bound >> 1;
    const least = (bound & 1) === 0 ? value : 1 - value;
    const key = x * 0x100000000 + (least + 0x80000000);
    let id = this.#ids.get(key);
    if (id === undefined) {
      id = this.variable.length;
      this.#ids.set(key, id);
      this.variable.push(x);
      this.value.push(least);
      this.#score.push(0);
      this.#place.push(this.#heap.length);
      this.#heap.push(id);
    }
    this.#score[id]! += this.#bump;
    if (this.#score[id]! > LARGEST) this.#shrink();
    if (this.#place[id]! >= 0) this.#up(this.#place[id]!);
  }

  /** Lets everything so far count a little less. */
  decay(): void {
    this.#bump /= this.#decay;
  }

  openLevel(): void {
    this.#levels.push(this.#aside.length);
  }

  backTo(level: number): void {
    if (level >= this.#levels.length) return;
    const keep = this.#levels[level]!;
    for (let k = this.#aside.length - 1; k >= keep; k -= 1) {
      const id = this.#aside[k]!;
      this.#place[id] = this.#heap.length;
      this.#heap.push(id);
      this.#up(this.#heap.length - 1);
    }
    this.#aside.length = keep;
    this.#levels.length = level;
  }

  /** The most active literal that is neither true nor false yet; -1 when there is none. */
  pick(): number {
    const low = this.#low;
    while (this.#heap.length > 0) {
      const id = this.#heap[0]!;
      const x = this.variable[id]!;
      const value = this.value[id]!;
      if (low[2 * x]! < value && -low[2 * x + 1]! >= value) return id;
      this.#pop();
      this.#aside.push(id);
    }
    return -1;
  }

  #pop(): void {
    const heap = this.#heap;
    this.#place[heap[0]!] = -1;
    const last = heap.pop()!;
    if (heap.length === 0) return;
    heap[0] = last;
    this.#place[last] = 0;
    this.#down(0);
  }

  #up(from: number): void {
    const heap = this.#heap;
    const id = heap[from]!;
    let at = from;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (this.#score[heap[parent]!]! >= this.#score[id]!) break;
      heap[at] = heap[parent]!;
      this.#place[heap[at]!] = at;
      at = parent;
    }
    heap[at] = id;
    this.#place[id] = at;
  }

  #down(from: number): void {
    const heap = this.#heap;
    const id = heap[from]!;
    let at = from;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= heap.length) break;
      if (child + 1 < heap.length && this.#score[heap[child + 1]!]! > this.#score[heap[child]!]!) child += 1;
      if (this.#score[heap[child]!]! <= this.#score[id]!) break;
      heap[at] = heap[child]!;
      this.#place[heap[at]!] = at;
      at = child;
    }
    heap[at] = id;
    this.#place[id] = at;
  }

  #shrink(): void {
    for (let id = 0; id < this.#score.length; id += 1) this.#score[id]! /= LARGEST;
    this.#bump /= LARGEST;
  }
}
