import { describe, expect, it } from "vitest";
import { instant } from "../../src/kernel/index.ts";
import { moonEarth, moonSun, sunStretches } from "../../src/physics/index.ts";
import { heavensOf, reliefOf, taskSky } from "../../src/terrain/index.ts";
import type { SkyPlan } from "../../src/terrain/heavens.ts";
import { skylineAt } from "../../src/terrain/skyline.ts";
import { horizonAt } from "./horizon.ts";

const site = { latDeg: 12, lonDeg: -33, elevationM: 0 };
const body = { radiusM: 1_737_400, ephemeris: "moon" } as const;
// Sunrise comes in this stay: level horizon a few hours after touchdown.
const stay = { touchdownUtc: "2031-05-02T00:00:00Z", lengthS: 86_400 };
const plan: SkyPlan = { site, body, stay };
const touchdownMs = Date.parse(stay.touchdownUtc);
const observer = { latDeg: 12, lonDeg: -33, radiusM: 1_737_400 };
const spot = { eastM: 0, northM: 0 };

/** Level ground with a bank `upM` high from 200 m east on, as rows of centimetres. */
const bank = (upM: number) => ({
  type: "grid" as const,
  westM: -300,
  southM: -300,
  cellM: 10,
  columns: 61,
  rows: 61,
  unit: "cm" as const,
  heights: Array.from({ length: 61 }, () =>
    Array.from({ length: 61 }, (_, column) => (column >= 50 ? upM * 100 : 0)).join(" "),
  ),
});

describe("light on the ground", () => {
  it("over level ground is sun over the level horizon, dip and all", () => {
    const heavens = heavensOf({ ...plan, ground: bank(0) });
    const lit = heavens.light([spot], "lit")!;
    const level = sunStretches(
      touchdownMs,
      observer,
      { leastDeg: 0, greatestDeg: 90 },
      { startS: instant(0), endS: instant(stay.lengthS) },
    );
    expect(lit).toHaveLength(1);
    // Eyes 1.5 m up see 0.075 degrees below level, nine minutes of sunrise.
    expect(level[0]!.startS - lit[0]!.startS).toBeGreaterThan(0);
    expect(level[0]!.startS - lit[0]!.startS).toBeLessThan(600);
    expect(lit[0]!.endS).toBe(stay.lengthS);
  });

  it("is unknown without heights, whatever the sun over a level horizon: neither lit nor shaded", () => {
    const heavens = heavensOf(plan);
    expect(heavens.light([spot], "lit")).toBeNull();
    // The sun is down to 3.4 degrees before sunrise: relief may still lift it over the horizon.
    expect(heavens.sunAt(0)!.elevationDeg).toBeGreaterThan(-8.6);
    expect(heavens.light([spot], "shaded")).toBeNull();
    // 88.6 degrees south, the sun some degrees up or down all stay.
    const pole = heavensOf({ ...plan, site: { ...site, latDeg: -88.6 } });
    expect([pole.light([spot], "lit"), pole.light([spot], "shaded")]).toEqual([null, null]);
  });

  it("without heights is shadow only while the sun is farther down than any relief reaches", () => {
    // The lowest horizon there can be on the Moon: acos((1737.4 - 9.2) / (1737.4 + 10.8)) = 8.67 degrees down.
    const night = heavensOf({ ...plan, site: { ...site, lonDeg: -50 } });
    const [dark] = night.light([spot], "shaded")!;
    expect(dark!.startS).toBe(0);
    expect(night.sunAt(dark!.endS)!.elevationDeg).toBeLessThan(-8.67);
    expect(night.sunAt(dark!.endS + 60)!.elevationDeg).toBeGreaterThan(-8.7);
    expect(night.light([spot], "lit")).toBeNull();
    // Far enough into the night it is surely never lit.
    const deep = heavensOf({ ...plan, site: { ...site, lonDeg: -90 } });
    expect(deep.light([spot], "lit")).toEqual([]);
    expect(deep.light([spot], "shaded")).toEqual([{ startS: 0, endS: stay.lengthS }]);
  });

  it("comes later behind a bank to the east: when the sun clears it, to the second", () => {
    const ground = bank(21.5);
    const heavens = heavensOf({ ...plan, ground });
    const lit = heavens.light([spot], "lit")!;
    const line = skylineAt(reliefOf(ground), spot, 1_737_400)!;
    const clear = (at: number): number => {
      const seen = moonSun(touchdownMs + at * 1000, observer);
      return seen.elevationDeg - horizonAt(line, seen.azimuthDeg).mostDeg;
    };
    const first = lit[0]!.startS;
    expect(clear(first)).toBeGreaterThan(0);
    expect(clear(first - 1)).toBeLessThanOrEqual(0);
    // A bank 20 m over the eye at about 200 m: 5.7 degrees or a little less aslant, at half a degree an hour.
    const level = heavensOf({ ...plan, ground: bank(0) }).light([spot], "lit")![0]!.startS;
    expect((first - level) / 3600).toBeGreaterThan(9);
    expect((first - level) / 3600).toBeLessThan(13);
    // West of the bank's top it is lit at once.
    expect(heavens.light([{ eastM: 250, northM: 0 }], "lit")![0]!.startS).toBeLessThan(level + 600);
  });

  it("lit and shaded share no second and leave out at most one between them", () => {
    const heavens = heavensOf({ ...plan, ground: bank(8) });
    const all = [...heavens.light([spot], "lit")!, ...heavens.light([spot], "shaded")!].sort(
      (a, b) => a.startS - b.startS,
    );
    for (let k = 1; k < all.length; k += 1) expect(all[k]!.startS - all[k - 1]!.endS).toBe(1);
    expect(all[0]!.startS).toBe(0);
    expect(all.at(-1)!.endS).toBe(stay.lengthS);
  });

  it("is said neither lit nor shaded where unknown ground may hide the sun", () => {
    const ground = bank(0);
    const holed = {
      ...ground,
      heights: ground.heights.map((row) =>
        row
          .split(" ")
          .map((one, k) => (k === 50 ? "x" : one))
          .join(" "),
      ),
    };
    const heavens = heavensOf({ ...plan, ground: holed });
    expect(heavens.light([spot], "lit")).toEqual([]);
    // While the sun is under what is known of the horizon, shadow is sure.
    const open = heavensOf({ ...plan, ground });
    expect(heavens.light([spot], "shaded")).toEqual(open.light([spot], "shaded"));
    // From east of the hole nothing unknown lies before the sun.
    const east = [{ eastM: 250, northM: 0 }];
    expect(heavens.light(east, "lit")).toEqual(open.light(east, "lit"));
  });

  it("at two places is light at both", () => {
    const heavens = heavensOf({ ...plan, ground: bank(21.5) });
    const high = { eastM: 250, northM: 0 };
    expect(heavens.light([spot, high], "lit")).toEqual(heavens.light([spot], "lit"));
    expect(heavens.light([spot, high], "shaded")).toEqual(heavens.light([high], "shaded"));
  });

  it("is not known off the grid, nor on a body without ephemeris", () => {
    expect(heavensOf({ ...plan, ground: bank(1) }).light([{ eastM: 900, northM: 0 }], "lit")).toBeNull();
    const none = heavensOf({ ...plan, body: { ...body, ephemeris: "none" } });
    expect([
      none.light([spot], "lit"),
      none.sun({ leastDeg: 0, greatestDeg: 9 }),
      none.earth([spot]),
    ]).toEqual([null, null, null]);
  });
});

describe("the sun about a heading", () => {
  it("is inside the range at both ends of a stretch and outside a second beyond", () => {
    const heavens = heavensOf(plan);
    const azimuth = (at: number): number => moonSun(touchdownMs + at * 1000, observer).azimuthDeg;
    // Its azimuth moves by a few degrees in the stay: ask for the half of them nearest to a heading.
    const [first, last] = [azimuth(0), azimuth(stay.lengthS)];
    const middle = (first + last) / 2;
    const heading = first;
    const apart = Math.abs(middle - first);
    const found = heavens.sunAngle(heading, { leastDeg: 0, greatestDeg: apart })!;
    expect(found).toHaveLength(1);
    expect(found[0]!.startS).toBe(0);
    const end = found[0]!.endS;
    expect(Math.abs(azimuth(end) - heading)).toBeLessThanOrEqual(apart);
    expect(Math.abs(azimuth(end + 1) - heading)).toBeGreaterThan(apart);
    expect(heavens.sunAngle((heading + 180) % 360, { leastDeg: 90, greatestDeg: 180 })).toEqual([
      { startS: 0, endS: stay.lengthS },
    ]);
  });
});

describe("the Earth", () => {
  it("is seen all day from the near side, never from the far side", () => {
    const open = { ...plan, ground: bank(0) };
    expect(heavensOf(open).earth([spot])).toEqual([{ startS: 0, endS: stay.lengthS }]);
    expect(heavensOf({ ...open, site: { ...site, lonDeg: 150 } }).earth([spot])).toEqual([]);
    // Without heights the near side does not know, and the far side knows that it is not.
    expect(heavensOf(plan).earth([spot])).toBeNull();
    expect(heavensOf({ ...plan, site: { ...site, lonDeg: 150 } }).earth([spot])).toEqual([]);
  });

  it("is hidden behind a bank near the limb, and the stretches say when", () => {
    // At 80 west the Earth stands low in the east.
    const limb = { ...plan, site: { latDeg: 0, lonDeg: -84, elevationM: 0 } };
    const at = { latDeg: 0, lonDeg: -84, radiusM: 1_737_400 };
    const seen = moonEarth(touchdownMs, at);
    expect(seen.elevationDeg).toBeGreaterThan(0);
    const over = 200 * Math.tan(((seen.elevationDeg + 4) * Math.PI) / 180) + 1.5;
    expect(heavensOf({ ...limb, ground: bank(over) }).earth([spot])).toEqual([]);
    expect(heavensOf({ ...limb, ground: bank(0) }).earth([spot])).toEqual([
      { startS: 0, endS: stay.lengthS },
    ]);
  });
});

describe("what a task asks of the sky", () => {
  const ground = {
    places: [
      { id: "lander", kind: "lander", eastM: 0, northM: 0 },
      { id: "a", kind: "station", eastM: 100, northM: 0 },
    ],
    relayPasses: [{ startS: instant(10), endS: instant(20) }],
    earthLink: false,
  };

  it("is nothing where it asks for nothing", () => {
    expect(taskSky(heavensOf(plan), ground, { relay: false })).toEqual({});
  });

  it("takes the Earth as a relay only where that is a link", () => {
    const heavens = heavensOf({ ...plan, ground: bank(0) });
    expect(taskSky(heavens, ground, { relay: true }).relay).toEqual(ground.relayPasses);
    expect(taskSky(heavens, { ...ground, earthLink: true }, { relay: true }).relay).toEqual([
      ...ground.relayPasses,
      { startS: 0, endS: stay.lengthS },
    ]);
    // Without heights only the passes are known, and that the rest is not.
    expect(taskSky(heavensOf(plan), { ...ground, earthLink: true }, { relay: true })).toEqual({
      relay: ground.relayPasses,
      isEarthUnknown: true,
    });
  });

  it("faces from place to end place where no heading is given", () => {
    const heavens = heavensOf(plan);
    const range = { leastDeg: 0, greatestDeg: 90 };
    const walk = { relay: false, place: "lander", endPlace: "a", sunAngle: range };
    expect(taskSky(heavens, ground, walk).sunAngle).toEqual(heavens.sunAngle(90, range));
    const still = { relay: false, place: "a", sunAngle: range };
    expect(taskSky(heavens, ground, still).sunAngle).toBeNull();
  });
});
