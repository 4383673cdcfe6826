import type { Project } from "./problem.ts";

/**
 * Capacities and demands packed side by side into 32-bit words, one guard bit above each resource's field, so that one
 * subtraction and one mask tell for several resources at once whether a demand fits: `(free - need) & guard` keeps
 * all guard bits when no field has to borrow.
 */
export interface Lanes {
  readonly words: number;
  /** By word: everything free, guard bits set. */
  readonly full: Int32Array;
  readonly guard: Int32Array;
  /** Flat, activity * words + word. */
  readonly need: Int32Array;
  /** By activity: 1 where some resource is in use at all. */
  readonly uses: Uint8Array;
}

const WORD_BITS = 32;

/** Packs the resources of `project`. Demands must not be above capacity; no capacity may need 31 bits. */
export function lanesOf({ activities, resources, capacity, demand }: Project): Lanes {
  const word = new Int32Array(resources);
  const shift = new Int32Array(resources);
  let words = 0;
  let used = WORD_BITS;
  for (let r = 0; r < resources; r += 1) {
    const bits = 33 - Math.clz32(capacity[r]!);
    if (used + bits > WORD_BITS) {
      words += 1;
      used = 0;
    }
    word[r] = words - 1;
    shift[r] = used;
    used += bits;
  }
  words = Math.max(words, 1);
  const full = new Int32Array(words);
  const guard = new Int32Array(words);
  for (let r = 0; r < resources; r += 1) {
    const mark = 1 << (shift[r]! + 32 - Math.clz32(capacity[r]!));
    guard[word[r]!]! |= mark;
    full[word[r]!]! |= mark | (capacity[r]! << shift[r]!);
  }
  const need = new Int32Array(activities * words);
  const uses = new Uint8Array(activities);
  for (let a = 0; a < activities; a += 1) {
    for (let r = 0; r < resources; r += 1) {
      const count = demand[a * resources + r]!;
      if (count === 0) continue;
      need[a * words + word[r]!]! |= count << shift[r]!;
      uses[a] = 1;
    }
  }
  return { words, full, guard, need, uses };
}
