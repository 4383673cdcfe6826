import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { instant, type Interval } from "../../src/kernel/index.ts";
import { moonSun, sunStretches, type Observer } from "../../src/physics/index.ts";
import { evenly } from "./evenly.ts";

const epochMs = Date.UTC(2031, 4, 3, 6, 30);
const day: Interval = { startS: instant(0), endS: instant(86_400) };

const observers = fc.record<Observer>({
  latDeg: evenly(-89.9, 89.9),
  lonDeg: evenly(-180, 180),
  radiusM: fc.constant(1_737_400),
});

function elevation(at: number, observer: Observer): number {
  return moonSun(epochMs + at * 1000, observer).elevationDeg;
}

describe("sunStretches", () => {
  it("is inside the range at every look within a stretch, and outside one second beyond its ends", () => {
    fc.assert(
      fc.property(observers, evenly(0, 1), evenly(0.001, 8), (observer, where, size) => {
        const first = elevation(0, observer);
        const last = elevation(day.endS, observer);
        const leastDeg = first + (last - first) * where;
        const range = { leastDeg, greatestDeg: leastDeg + size };
        const isInside = (at: number): boolean => {
          const deg = elevation(at, observer);
          return deg >= range.leastDeg && deg <= range.greatestDeg;
        };
        const found = sunStretches(epochMs, observer, range, day);
        for (const { startS, endS } of found) {
          expect(startS).toBeLessThan(endS);
          for (let at: number = startS; at < endS; at += 977) expect(isInside(at)).toBe(true);
          expect(isInside(endS)).toBe(true);
          // The last second before and the first after a stretch are not wholly inside, save for rounding noise.
          if (startS > day.startS) expect(isInside(startS - 1.001)).toBe(false);
          if (endS < day.endS) expect(isInside(endS + 1.001)).toBe(false);
        }
        const covered = (at: number): boolean => found.some((one) => at >= one.startS && at < one.endS);
        for (let at = 300; at < day.endS; at += 600) {
          if (isInside(at - 1) && isInside(at) && isInside(at + 1)) expect(covered(at)).toBe(true);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("does not miss a short pass over the limit at noon", () => {
    const site: Observer = { latDeg: 20, lonDeg: 0, radiusM: 1_737_400 };
    let noonS = 0;
    for (let at = 0; at < 30 * 86_400; at += 60) {
      if (elevation(at, site) > elevation(noonS, site)) noonS = at;
    }
    const noon = elevation(noonS, site);
    // Ten seconds either side of noon the sun is lower by less than a hundred-thousandth of a degree.
    const limit = elevation(noonS - 200, site);
    expect(noon - limit).toBeLessThan(1e-4);
    const within = { startS: instant(noonS - 40_000), endS: instant(noonS + 40_000) };
    const found = sunStretches(epochMs, site, { leastDeg: 0, greatestDeg: limit }, within);
    expect(found).toHaveLength(2);
    expect(Math.abs(found[0]!.endS - (noonS - 200))).toBeLessThanOrEqual(1);
    expect(found[1]!.startS).toBeGreaterThan(noonS + 60);
  });

  it("gives the whole, nothing, or nothing for an empty stretch", () => {
    const site: Observer = { latDeg: 3, lonDeg: -120, radiusM: 1_737_400 };
    expect(sunStretches(epochMs, site, { leastDeg: -90, greatestDeg: 90 }, day)).toEqual([day]);
    expect(sunStretches(epochMs, site, { leastDeg: 89, greatestDeg: 90 }, day)).toEqual([]);
    const nothing = { startS: instant(5), endS: instant(5) };
    expect(sunStretches(epochMs, site, { leastDeg: -90, greatestDeg: 90 }, nothing)).toEqual([]);
  });

  it("knows the fastest the sun can climb, over 18 years", () => {
    // The search rests on this bound: 0.56 degrees an hour times the cosine of the latitude, plus 0.004.
    for (const latDeg of [0, 45, 80, 90]) {
      const site: Observer = { latDeg, lonDeg: 37, radiusM: 1_737_400 };
      const bound = 0.56 * Math.cos((latDeg * Math.PI) / 180) + 0.004;
      for (let hour = 0; hour < 18 * 8766; hour += 61) {
        const change = Math.abs(elevation((hour + 1) * 3600, site) - elevation(hour * 3600, site));
        expect(change).toBeLessThan(bound);
      }
    }
  });
});
