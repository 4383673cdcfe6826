import { describe, expect, it } from "vitest";
import { hillshade, horizonDeg, skylineAt, sunlitPoints } from "../../src/terrain/index.ts";
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
      const over = sun.elevationDeg - horizonDeg(skylineAt(rough, spot, MOON_M, 0)!, sun.azimuthDeg);
      // Near the edge of the shadow the two may differ: one takes the slope across two cells, the other ahead.
      if (Math.abs(over) < 3.5) continue;
      looked += 1;
      expect({ spot, lit: shade[row * 61 + column] }).toEqual({ spot, lit: over > 0 ? 1 : 0 });
    }
    expect(looked).toBeGreaterThan(100);
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
