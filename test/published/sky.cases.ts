import { instant } from "../../src/kernel/index.ts";
import { moonEarth, moonSun, type Observer, sunStretches } from "../../src/physics/index.ts";
import type { Case } from "./case.ts";
import { seenFrom, subEarth, subSolar, turn } from "./selenography.ts";

/** The sky of the Moon against librations and the geometry of the phases. */

const SUB_EARTH = "sub-Earth point of astronomy-engine's Libration(), which the product does not use";
const SUB_SOLAR = "sub-solar point after Meeus 1998, Astronomical Algorithms, ch. 53 (value from memory)";

const epochs = [
  Date.UTC(2026, 0, 3, 12),
  Date.UTC(2031, 4, 3, 6, 30),
  Date.UTC(2034, 10, 20, 18),
  Date.UTC(2039, 7, 11, 0, 15),
];
const sites: readonly Observer[] = [
  { latDeg: 0, lonDeg: 0, radiusM: 1_737_400 },
  { latDeg: 23.5, lonDeg: -41, radiusM: 1_737_400 },
  { latDeg: -61, lonDeg: 77, radiusM: 1_737_400 },
  { latDeg: -88, lonDeg: 150, radiusM: 1_737_400 },
];

const named = (epochMs: number, site: Observer): string =>
  `${new Date(epochMs).toISOString().slice(0, 16)}Z at ${site.latDeg}, ${site.lonDeg}`;

/** The sub-solar longitude, found in the product's sky alone: where two elevations on the equator say it is. */
function subSolarLonDeg(epochMs: number): number {
  const height = (lonDeg: number): number =>
    Math.sin((moonSun(epochMs, { latDeg: 0, lonDeg, radiusM: 1_737_400 }).elevationDeg * Math.PI) / 180);
  return (Math.atan2(height(90), height(0)) * 180) / Math.PI;
}

/** Mean westward motion of the sub-solar point over 354 days, about twelve synodic months, degrees an hour. */
function meanSunDegH(fromMs: number): number {
  const days = 354;
  let total = 0;
  for (let day = 0; day < days; day += 1) {
    const before = subSolarLonDeg(fromMs + day * 86_400_000);
    const next = subSolarLonDeg(fromMs + (day + 1) * 86_400_000);
    total += turn(before - next);
  }
  return total / (days * 24);
}

const earth = (epochMs: number, site: Observer): Case => {
  const point = subEarth(epochMs);
  return {
    model: "sky",
    what: `Earth elevation ${named(epochMs, site)}`,
    source: SUB_EARTH,
    provenance: "reference",
    unit: "degrees",
    value: seenFrom(site, point, point.distanceKm).elevationDeg,
    ours: () => moonEarth(epochMs, site).elevationDeg,
    within: 0.1,
  };
};
const sun = (epochMs: number, site: Observer): Case => ({
  model: "sky",
  what: `sun elevation ${named(epochMs, site)}`,
  source: SUB_SOLAR,
  provenance: "reference",
  unit: "degrees",
  value: seenFrom(site, subSolar(epochMs)).elevationDeg,
  ours: () => moonSun(epochMs, site).elevationDeg,
  within: 0.1,
});

/** Seconds from the epoch at which the sun climbs through `deg` at a site, by the reference's sub-solar point. */
function climbsThroughS(epochMs: number, site: Observer, deg: number): number {
  const height = (at: number): number => seenFrom(site, subSolar(epochMs + at * 1000)).elevationDeg;
  let low = 0;
  let high = 86_400;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (height(middle) < deg) low = middle;
    else high = middle;
  }
  return high;
}

const morning: Observer = { latDeg: 12, lonDeg: -33, radiusM: 1_737_400 };
const sunrise = Date.UTC(2031, 4, 1, 19);

export const skyCases: readonly Case[] = [
  {
    model: "sky",
    what: "mean motion of the sub-solar point over 354 days",
    source: "synodic month 29.530589 d; about 0.5 degrees an hour",
    provenance: "arithmetic",
    unit: "degrees/h",
    value: 0.507948,
    ours: () => meanSunDegH(Date.UTC(2031, 0, 1)),
    within: 0.0004,
  },
  ...epochs.flatMap((epochMs, i) => [earth(epochMs, sites[i]!), sun(epochMs, sites[i]!)]),
  {
    model: "stretches",
    what: "begin of the stretch with the sun at 5 degrees or more, from 2031-05-01T19:00Z at 12, -33; 0.1 degrees is 12 min",
    source: SUB_SOLAR,
    provenance: "reference",
    unit: "min",
    value: climbsThroughS(sunrise, morning, 5) / 60,
    ours: () => {
      const day = { startS: instant(0), endS: instant(86_400) };
      return sunStretches(sunrise, morning, { leastDeg: 5, greatestDeg: 90 }, day)[0]!.startS / 60;
    },
    within: 12,
  },
];
