import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  angle,
  bearing,
  digits,
  grouped,
  heat,
  kmH,
  mass,
  metres,
  metresMore,
  percent,
  type Side,
  signed,
  sizeWords,
  stock,
  volume,
  watts,
} from "../../src/words/index.ts";
import { MINUS } from "../../src/words/number.ts";

const SIDES = ["up", "down"] as const;

/** Every amount that is rounded, with what its last figure is worth at most, and how it is read back. */
const AMOUNTS: Readonly<
  Record<string, { say: (value: number, side: "up" | "down") => string; step: (value: number) => number }>
> = {
  metres: { say: metres, step: (m) => Math.max(0.1, Math.abs(m) / 99) },
  mass: { say: mass, step: () => 0.1 },
  volume: { say: volume, step: () => 0.1 },
  "stock in kg": { say: (value, side) => stock(value, "kg", side), step: () => 0.001 },
  "stock in Wh": { say: (value, side) => stock(value, "Wh", side), step: () => 0.1 },
  heat: { say: heat, step: () => 1 },
  angle: { say: angle, step: () => 0.1 },
  percent: { say: (value, side) => percent(value / 100, side), step: () => 1 },
};

/** A said amount as a number in its base unit. */
function read(said: string): number {
  const [, number, unit] = /^([−\d.\u202f]+) ?(\S+)$/.exec(said)!;
  return Number(number!.replace(MINUS, "-").replaceAll("\u202f", "")) * (unit === "km" ? 1000 : 1);
}

describe("amounts are rounded to the safe side", () => {
  for (const [name, { say, step }] of Object.entries(AMOUNTS)) {
    it(`${name}: up is never less, down never more, either by less than the last figure`, () => {
      fc.assert(
        fc.property(
          fc.double({ min: -2e5, max: 2e5, noNaN: true }),
          fc.constantFrom(...SIDES),
          (value, side) => {
            const shown = read(say(value, side));
            const by = side === "up" ? shown - value : value - shown;
            // A millionth of the last figure is noise of binary fractions.
            expect(by).toBeGreaterThanOrEqual(-2e-6 * step(value));
            expect(by).toBeLessThan(step(value) * 1.001);
          },
        ),
      );
    });

    it(`${name}: of two, the greater is never said as the smaller`, () => {
      fc.assert(
        fc.property(
          fc.double({ min: -2e5, max: 2e5, noNaN: true }),
          fc.double({ min: 0, max: 2000, noNaN: true }),
          fc.constantFrom(...SIDES),
          (value, more, side) => {
            expect(read(say(value + more, side))).toBeGreaterThanOrEqual(read(say(value, side)));
          },
        ),
      );
    });

    it(`${name}: nothing has no sign`, () => {
      fc.assert(
        fc.property(
          fc.double({ min: -0.5, max: 0.5, noNaN: true }),
          fc.constantFrom(...SIDES),
          (value, side) => {
            expect(say(value, side)).not.toMatch(/^−[0.]+(\s|°|$)/);
            expect(say(value, side)).not.toContain("-");
          },
        ),
      );
    });
  }
});

describe("distances", () => {
  it("keep three figures, and no finer than a tenth of a metre", () => {
    const said = (...values: number[]): string[] => values.map((one) => metres(one, "up"));
    expect(said(0, 8.41, 91.44, 99.91, 622.6)).toEqual(["0 m", "8.5 m", "91.5 m", "100 m", "623 m"]);
    expect(said(999.01, 1234, 1240, 9990.1, 12_340, 123_400)).toEqual([
      "1.00 km",
      "1.24 km",
      "1.24 km",
      "10.0 km",
      "12.4 km",
      "124 km",
    ]);
    expect([91.44, 1239, 12_340].map((one) => metres(one, "down"))).toEqual(["91.4 m", "1.23 km", "12.3 km"]);
    expect([12.345, 1234.5].map((one) => metres(one, "given"))).toEqual(["12.345 m", "1.2345 km"]);
  });
});

describe("numbers", () => {
  it("stand in thin groups of three with a true minus sign", () => {
    expect([0, -0, 999, 1874, -1_234_567].map(grouped)).toEqual([
      "0",
      "0",
      "999",
      "1\u202f874",
      "−1\u202f234\u202f567",
    ]);
    expect([0, 1200, -3].map(signed)).toEqual(["0", "+1\u202f200", "−3"]);
    expect([0.1 + 0.2, -1234.5, 0.000125].map((one) => digits(one))).toEqual([
      "0.3",
      "−1\u202f234.5",
      "0.000125",
    ]);
  });

  it("as given are what the plan says", () => {
    const given: Side = "given";
    expect([mass(4.355, given), volume(3.5, given), percent(0.975, given)]).toEqual([
      "4.355 kg",
      "3.5 L",
      "97.5 %",
    ]);
  });

  it("of a file are never said to be less than they are", () => {
    expect([0, 999, 1000, 1001, 999_000, 999_001, 1_000_001, 12_340_000].map(sizeWords)).toEqual([
      "0 bytes",
      "999 bytes",
      "1 kB",
      "2 kB",
      "999 kB",
      "1.0 MB",
      "1.1 MB",
      "12.4 MB",
    ]);
  });

  it("of a power stand as they are, and of a difference of ways with their sign", () => {
    expect([260, 259.5].map(watts)).toEqual(["260 W", "259.5 W"]);
    expect([1200, 0, -40].map(metresMore)).toEqual(["+1\u202f200 m", "0 m", "−40 m"]);
  });

  it("come from binary fractions without being pushed a step", () => {
    expect([0.1 + 0.2, 1.61, 5].map((one) => mass(one, "up"))).toEqual(["0.3 kg", "1.7 kg", "5 kg"]);
    expect([0.29, 0.2999, 0.07, -0.001].map((one) => percent(one, "down"))).toEqual([
      "29 %",
      "29 %",
      "7 %",
      "−1 %",
    ]);
    // 0.29 * 100 is 28.999999999999996.
    expect(stock(0.29, "kg", "down")).toBe("0.290 kg");
    expect(stock(0.0209709, "kg", "down")).toBe("0.020 kg");
    expect(stock(9.84, "Wh", "up")).toBe("9.9 Wh");
  });

  it("of speed and direction", () => {
    expect([1, 5.5 / 3.6, 7 / 3.6, 1.53].map(kmH)).toEqual([
      "3.6 km/h",
      "5.5 km/h",
      "7.0 km/h",
      "5.508 km/h",
    ]);
    expect([0, 45.4, 359.6, -90].map(bearing)).toEqual(["000°", "045°", "000°", "270°"]);
    expect([angle(5.26, "down"), angle(-0.84, "down")]).toEqual(["5.2°", "−0.9°"]);
  });
});
