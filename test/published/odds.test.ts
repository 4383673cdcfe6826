import { describe, expect, it } from "vitest";
import { draw, random, type Shape } from "../../src/kernel/index.ts";
import { chanceOf } from "../../src/solver/simulate/chance.ts";
import { meanOf, type Spread, varianceOf } from "./spread.ts";
import { sumOfTwo } from "./triangles.ts";

const N = 200_000;

/** `count` draws of the sum of `spreads`, one stream for all. */
function sums(shape: Shape, spreads: readonly Spread[], seed: number, count = N): Float64Array {
  const stream = random(seed);
  return Float64Array.from({ length: count }, () =>
    spreads.reduce((sum, { low, likely, high }) => sum + draw(shape, low, likely, high, stream), 0),
  );
}

function moments(list: Float64Array): { mean: number; variance: number } {
  const mean = list.reduce((sum, one) => sum + one, 0) / list.length;
  return { mean, variance: list.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (list.length - 1) };
}

describe("sums of triangular durations", () => {
  const parts: Spread[] = [
    { low: 480, likely: 720, high: 1080 },
    { low: 600, likely: 660, high: 1500 },
    { low: 300, likely: 900, high: 900.5 },
  ];

  it("have the mean and the variance that add up from (a + m + b) / 3 and (a2 + m2 + b2 - am - ab - mb) / 18", () => {
    const mean = 760 + 920 + 2100.5 / 3;
    const variance = 15_200 + 42_200 + varianceOf("triangular", parts[2]!);
    expect(meanOf("triangular", parts[0]!)).toBe(760);
    expect(varianceOf("triangular", parts[0]!)).toBeCloseTo(15_200, 6);
    expect(varianceOf("triangular", parts[1]!)).toBeCloseTo(42_200, 6);
    const drawn = moments(sums("triangular", parts, 5));
    // Four standard errors of a mean; the variance of so many draws is good to a percent.
    expect(Math.abs(drawn.mean - mean)).toBeLessThan(4 * Math.sqrt(variance / N));
    expect(drawn.variance / variance).toBeGreaterThan(0.985);
    expect(drawn.variance / variance).toBeLessThan(1.015);
  });

  it("of two follow the exact distribution function everywhere (Kolmogorov distance)", () => {
    const [a, b] = [parts[0]!, parts[1]!];
    expect(sumOfTwo(a, b, a.low + b.low)).toBe(0);
    expect(sumOfTwo(a, b, a.high + b.high)).toBeCloseTo(1, 9);
    const sorted = sums("triangular", [a, b], 11).sort();
    let apart = 0;
    for (let i = 0; i < N; i += 100)
      apart = Math.max(apart, Math.abs((i + 0.5) / N - sumOfTwo(a, b, sorted[i]!)));
    // 1.95 / sqrt(n) is passed once in a thousand runs (Kolmogorov's limit, textbook value); the seed is fixed.
    expect(apart).toBeLessThan(1.95 / Math.sqrt(N));
  });
});

/**
 * Hillier & Lieberman, Introduction to Operations Research, project management with PERT/CPM, the plant of the chapter:
 * optimistic, likely and pessimistic weeks; value from memory, the means agree with the durations of the same example
 * in scheduling.test.ts.
 */
const PLANT: Record<string, readonly [number, number, number]> = {
  A: [1, 2, 3],
  B: [2, 3.5, 8],
  C: [6, 9, 18],
  D: [4, 5.5, 10],
  E: [1, 4.5, 5],
  F: [4, 4, 10],
  G: [5, 6.5, 11],
  H: [5, 8, 17],
  I: [3, 7.5, 9],
  J: [3, 9, 9],
  K: [4, 4, 4],
  L: [1, 5.5, 7],
  M: [1, 2, 3],
  N: [5, 5.5, 9],
};
const spreadOf = (name: string): Spread => {
  const [low, likely, high] = PLANT[name]!;
  return { low, likely, high };
};

describe("PERT, (a + 4 m + b) / 6 of Malcolm et al. 1959, Operations Research 7:646", () => {
  it("gives the published mean durations of Hillier & Lieberman's plant and 44 weeks on its critical path", () => {
    const means = Object.keys(PLANT).map((name) => meanOf("pert", spreadOf(name)));
    expect(means.map((one) => Number(one.toFixed(9)))).toEqual([2, 4, 10, 6, 4, 5, 7, 9, 7, 8, 4, 5, 2, 6]);
    const path = [..."ABCEFJLN"].map(spreadOf);
    expect(path.reduce((sum, one) => sum + meanOf("pert", one), 0)).toBeCloseTo(44, 9);
    // The paper's variance ((b - a) / 6)^2 sums to 9 there; within 47 weeks by the normal approximation: 0.8413.
    expect(path.reduce((sum, { low, high }) => sum + ((high - low) / 6) ** 2, 0)).toBeCloseTo(9, 9);
    const drawn = sums("pert", path, 3);
    const { mean, variance } = moments(drawn);
    const exact = path.reduce((sum, one) => sum + varianceOf("pert", one), 0);
    expect(Math.abs(mean - 44)).toBeLessThan(4 * Math.sqrt(exact / N));
    expect(variance / exact).toBeGreaterThan(0.985);
    expect(variance / exact).toBeLessThan(1.015);
    // Beta durations are skewed and their variance is not the paper's: the normal value holds to three percent.
    const within = drawn.filter((one) => one <= 47).length / N;
    expect(Math.abs(within - 0.8413)).toBeLessThan(0.03);
  });

  it("gives Taylor's worked example: critical path 1-3-5-7, 24 days, variance 5, within 28 days 0.9633", () => {
    // Taylor, Introduction to Management Science, ch. 8, example problem on PERT; read as quoted on a public page.
    const path = [
      { low: 5, likely: 8, high: 17 },
      { low: 3, likely: 5, high: 7 },
      { low: 4, likely: 6, high: 8 },
      { low: 3, likely: 4, high: 5 },
    ];
    expect(path.reduce((sum, one) => sum + meanOf("pert", one), 0)).toBeCloseTo(24, 9);
    expect(path.reduce((sum, { low, high }) => sum + ((high - low) / 6) ** 2, 0)).toBeCloseTo(5, 9);
    // The normal value ignores the skew of beta durations and their variance, 5.86 here: it holds to three percent.
    const within = sums("pert", path, 8).filter((one) => one <= 28).length / N;
    expect(Math.abs(within - 0.9633)).toBeLessThan(0.03);
  });

  it("never leaves low to high, and is exactly the likely time without a spread", () => {
    const stream = random(2);
    for (const shape of ["pert", "triangular"] as const) {
      for (const likely of [10, 13, 40]) {
        for (let n = 0; n < 2000; n += 1) {
          const one = draw(shape, 10, likely, 40, stream);
          expect(one >= 10 && one <= 40).toBe(true);
        }
      }
      expect(draw(shape, 7, 7, 7, stream)).toBe(7);
    }
  });
});

describe("Wilson 1927, J Am Stat Assoc 22:209-212", () => {
  // Newcombe 1998, Stat Med 17:857-872, Table I, score method without continuity correction; value from memory,
  // the same to four places when worked from the formula.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])("%i of %i: %f to %f", (count, of, low, high) => {
    const chance = chanceOf(count, of);
    expect(chance.low).toBeCloseTo(low, 4);
    expect(chance.high).toBeCloseTo(high, 4);
    expect(chance.share).toBe(count / of);
  });

  it("never shows a chance better than counted", () => {
    expect(chanceOf(9996, 10_000).words).toMatch(/^99\.9 % /);
    expect(chanceOf(1999, 2000).words).toBe("99.9 % (99.7 to 99.9 %)");
    expect(chanceOf(2000, 2000).words).toBe("over 99.8 %");
    expect(chanceOf(0, 2000).words).toBe("under 0.2 %");
    expect(chanceOf(580, 2000).words).toMatch(/^29\.0 % /);
    expect(chanceOf(0, 0).words).toBe("unknown");
    // Of what is bad, such as a task missed, up: 8 of 300 are 2.67 %.
    expect(chanceOf(8, 300, "up").words).toMatch(/^2\.7 % /);
    expect(chanceOf(1999, 2000, "up").words).toBe("99.9 % (99.7 to 99.9 %)");
    expect(chanceOf(1, 2000, "up").words).toMatch(/^0\.1 % /);
    expect(chanceOf(2000, 2000, "up").words).toBe("over 99.8 %");
  });
});
