import { describe, expect, it } from "vitest";
import { hillshade, sunlitPoints } from "../../src/terrain/index.ts";
import { skylineAt } from "../../src/terrain/skyline.ts";
import { horizonAt } from "./horizon.ts";
import { random } from "../../src/kernel/index.ts";
import { hill } from "./hill.ts";

const MOON_M = 1_737_400;
const size = { columns: 61, rows: 61, cellM: 10, westM: -300, southM: -300 };

describe("hillshade", () => {
  it("is the sine of the elevation on the level, and 1 on a slope that faces the sun", () => {
    const level = hillshade(
      hill(size, () => 4),
      { elevationDeg: 12, azimuthDeg: 77 },
    );
    for (const one of level) expect(one).toBeCloseTo(Math.sin((12 * Math.PI) / 180), 9);
    // Falls to the east by 1 in 2, so its normal stands 63.43 degrees up in the east.
    const facing = hillshade(
      hill(size, (e) => -e / 2),
      { elevationDeg: 63.4349488, azimuthDeg: 90 },
    );
    for (const one of facing) expect(one).toBeCloseTo(1, 9);
  });
});

describe("cast shadow", () => {
  // A wall 20 m high and 20 m thick along the north axis, sun in the east at 10 degrees.
  const wall = hill(size, (e) => (Math.abs(e) <= 10 ? 20 : 0));
  const lit = sunlitPoints(wall, { elevationDeg: 10, azimuthDeg: 90 }, MOON_M);
  const at = (eastM: number): number => lit[30 * 61 + 30 + eastM / 10]!;

  it("is as long as the height over the tangent of the elevation: 113 m behind a wall of 20 m", () => {
    // The wall's top ends at 10 m west: shadow to 10 + 113.4 m.
    expect(at(-120)).toBe(0);
    expect(at(-130)).toBe(1);
    expect(at(-50)).toBe(0);
    expect(at(100)).toBe(1);
  });

  it("falls where the horizon stands over the sun, seen from the ground itself", () => {
    const source = random(4);
    const rough = hill(size, (e, n) => 15 * Math.sin(e / 50) * Math.cos(n / 40));
    const sun = { elevationDeg: 6, azimuthDeg: 133 };
    const shade = sunlitPoints(rough, sun, MOON_M);
    let looked = 0;
    for (let k = 0; k < 200; k += 1) {
      const [column, row] = [source.below(61), source.below(61)];
      const spot = { eastM: -300 + 10 * column, northM: -300 + 10 * row };
      const over = sun.elevationDeg - horizonAt(skylineAt(rough, spot, MOON_M, 0)!, sun.azimuthDeg).mostDeg;
      const lit = shade[row * 61 + column];
      // Lit is said of no point that the horizon hides.
      if (over <= 0) expect({ spot, lit }).toEqual({ spot, lit: 0 });
      // Where the sun just clears it, the shading may still say shadow: it takes the slope across two cells.
      if (Math.abs(over) < 3.5) continue;
      looked += 1;
      expect({ spot, lit }).toEqual({ spot, lit: over > 0 ? 1 : 0 });
    }
    expect(looked).toBeGreaterThan(100);
  });

  it("of a crest between two points is not missed", () => {
    // Two points 30 m up side by side on a diagonal: between them, on the line from the south-west corner of their cell to
    // its north-east one, the ground is a ridge 15 m high, and level at both corners.
    const ridge = hill(size, (e, n) => ((e === 100 && n === 110) || (e === 110 && n === 100) ? 30 : 0));
    const sun = { elevationDeg: Math.atan(14.9 / (105 * Math.SQRT2)) * (180 / Math.PI), azimuthDeg: 45 };
    expect(sunlitPoints(ridge, sun, MOON_M)[30 * 61 + 30]).toBe(0);
    const higher = { ...sun, elevationDeg: Math.atan(15.1 / (105 * Math.SQRT2)) * (180 / Math.PI) };
    expect(sunlitPoints(ridge, higher, MOON_M)[30 * 61 + 30]).toBe(1);
  });

  it("is said where unknown ground may throw it", () => {
    // The highest known ground is 40 m: higher than that the unknown is not taken to be.
    const hole = hill(size, (e, n) => (e === 100 && n === 0 ? NaN : e < -250 ? 40 : 0));
    const light = sunlitPoints(hole, { elevationDeg: 3, azimuthDeg: 90 }, MOON_M);
    expect(light[30 * 61 + 20]).toBe(0);
    expect(light[20 * 61 + 20]).toBe(1);
    expect(light[30 * 61 + 50]).toBe(1);
  });

  it("covers all when the sun is down, and nothing under a sun overhead", () => {
    const level = hill(size, () => 0);
    expect(sunlitPoints(level, { elevationDeg: -1, azimuthDeg: 10 }, MOON_M).every((one) => one === 0)).toBe(
      true,
    );
    expect(sunlitPoints(wall, { elevationDeg: 90, azimuthDeg: 0 }, MOON_M).every((one) => one === 1)).toBe(
      true,
    );
  });
});
