/**
 * A store of things that are dear to work out, by a key that says everything they depend on: the same key gives the
 * same thing, remembered or not. What was not asked for longest goes first when the store is full.
 */
export interface Memory<T> {
  /** What stands under `key`; made by `make` when it is not there. */
  of(key: string, make: () => T): T;
  /** What stands under `key`, if anything. */
  known(key: string): T | undefined;
  /** Whether something stands under `key`; it does not count as asked for. */
  has(key: string): boolean;
  /** All that is remembered, what was not asked for longest first: what `take` takes elsewhere. */
  all(): readonly (readonly [key: string, thing: T])[];
  /** Remembers what was worked out elsewhere. */
  take(things: readonly (readonly [key: string, thing: T])[]): void;
}

/** A store of weight `room` at most; `weigh` gives each thing's weight (1 when left out). The newest always stays. */
export function memory<T>(room: number, weigh: (thing: T) => number = () => 1): Memory<T> {
  const stored = new Map<string, T>();
  let weight = 0;
  const memory: Memory<T> = {
    known(key) {
      const known = stored.get(key);
      if (known === undefined) return undefined;
      stored.delete(key);
      stored.set(key, known);
      return known;
    },
    of(key, make) {
      const known = memory.known(key);
      if (known !== undefined) return known;
      const made = make();
      stored.set(key, made);
      weight += weigh(made);
      for (const [oldest, thing] of stored) {
        if (weight <= room || oldest === key) break;
        stored.delete(oldest);
        weight -= weigh(thing);
      }
      return made;
    },
    has: (key) => stored.has(key),
    all: () => [...stored],
    take(things) {
      for (const [key, thing] of things) memory.of(key, () => thing);
    },
  };
  return memory;
}

/** What work that is done in steps comes to, without a pause. */
export function atOnce<T>(steps: Generator<unknown, T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

const numbers = new WeakMap<object, number>();
let lastNumber = 0;

/** A number of this very object, for keys: another object has another number, whatever it holds. */
export function numberOf(thing: object): number {
  let number = numbers.get(thing);
  if (number === undefined) numbers.set(thing, (number = lastNumber += 1));
  return number;
}
