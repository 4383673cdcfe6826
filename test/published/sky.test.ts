import { EclipticGeoMoon } from "astronomy-engine";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { moonEarth, moonSun, type Observer } from "../../src/physics/index.ts";
import { fromEcliptic, seenFrom, subEarth, subSolar, turn } from "./selenography.ts";
import { evenly } from "../physics/evenly.ts";

/**
 * The product's sky (vectors and the rotation axis) against another route (ecliptic longitudes and the laws of the
 * Moon's rotation), anywhere and over a century. Tolerance 0.1 degrees: the reference for the sun leaves out physical
 * librations and nutation, together below 0.08 degrees.
 */
const epochs = fc.integer({ min: Date.UTC(1960, 0, 1), max: Date.UTC(2060, 0, 1) });
const sites = fc.record<Observer>({
  latDeg: evenly(-90, 90),
  lonDeg: evenly(-180, 180),
  radiusM: fc.constant(1_737_400),
});

/** Azimuths differ freely near the zenith, so the difference is weighed by the distance from it. */
function across(a: { azimuthDeg: number; elevationDeg: number }, b: { azimuthDeg: number }): number {
  return Math.abs(turn(a.azimuthDeg - b.azimuthDeg)) * Math.cos((a.elevationDeg * Math.PI) / 180);
}

describe("the sky by another route", () => {
  it("has the Earth where the sub-Earth point of astronomy-engine's Libration() puts it, 0.1 degrees", () => {
    fc.assert(
      fc.property(epochs, sites, (epochMs, site) => {
        const point = subEarth(epochMs);
        const want = seenFrom(site, point, point.distanceKm);
        const have = moonEarth(epochMs, site);
        expect(Math.abs(have.elevationDeg - want.elevationDeg)).toBeLessThan(0.1);
        expect(across(have, want)).toBeLessThan(0.1);
      }),
      { numRuns: 300 },
    );
  });

  it("has the sun where the sub-solar point after Meeus 1998 ch. 53 puts it, value from memory, 0.1 degrees", () => {
    fc.assert(
      fc.property(epochs, sites, (epochMs, site) => {
        const want = seenFrom(site, subSolar(epochMs));
        const have = moonSun(epochMs, site);
        expect(Math.abs(have.elevationDeg - want.elevationDeg)).toBeLessThan(0.1);
        expect(across(have, want)).toBeLessThan(0.1);
      }),
      { numRuns: 300 },
    );
  });

  it("holds the reference itself against the library's librations, 0.08 degrees", () => {
    fc.assert(
      fc.property(epochs, (epochMs) => {
        const moon = EclipticGeoMoon(new Date(epochMs));
        const optical = fromEcliptic(epochMs, moon.lon, moon.lat);
        const full = subEarth(epochMs);
        expect(Math.abs(optical.latDeg - full.latDeg)).toBeLessThan(0.08);
        expect(Math.abs(turn(optical.lonDeg - full.lonDeg))).toBeLessThan(0.08);
      }),
      { numRuns: 200 },
    );
  });

  it("puts the Earth overhead at the middle of the near side within the librations, below at the far side", () => {
    fc.assert(
      fc.property(epochs, (epochMs) => {
        const near = { latDeg: 0, lonDeg: 0, radiusM: 1_737_400 };
        expect(moonEarth(epochMs, near).elevationDeg).toBeGreaterThan(79);
        expect(moonEarth(epochMs, { ...near, lonDeg: 180 }).elevationDeg).toBeLessThan(-79);
      }),
    );
  });
});
