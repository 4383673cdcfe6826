/** A seeded stream of numbers: the same seed gives the same stream on every engine. */
export interface Random {
  /** Uniform in [0, 1), 32 bits of it. */
  next(): number;
  /** Uniform whole number in [0, below). `below` must be a whole number of at least 1. */
  below(below: number): number;
  /** Uniform in [low, high). */
  between(low: number, high: number): number;
  /** A stream of its own, split off reproducibly. */
  split(): Random;
}

/**
 * Small fast counter generator "sfc32" (C. Doty-Humphrey, PractRand; value from memory) seeded by a
 * 32-bit mixing of `seed`. Not for secrets.
 */
export function random(seed: number): Random {
  let mix = seed >>> 0;
  const word = (): number => {
    mix = (mix + 0x9e3779b9) >>> 0;
    let z = mix;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return (z ^ (z >>> 16)) >>> 0;
  };
  let a = word();
  let b = word();
  let c = word();
  let counter = 1;
  const bits = (): number => {
    const sum = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    c |= 0;
    return sum >>> 0;
  };
  for (let warm = 0; warm < 12; warm += 1) bits();
  const next = (): number => bits() / 4294967296;
  return {
    next,
    below: (below) => Math.floor(next() * below),
    between: (low, high) => low + next() * (high - low),
    split: () => random(bits()),
  };
}
