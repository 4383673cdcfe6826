import { apartDeg, bearingDeg, dipDeg, sightDeg } from "../../src/physics/index.ts";
import { heavensOf } from "../../src/terrain/index.ts";
import { skylineAt } from "../../src/terrain/skyline.ts";
import { horizonAt } from "../terrain/horizon.ts";
import { hill } from "../terrain/hill.ts";
import type { Case } from "./case.ts";
import { seenFrom, subSolar } from "./selenography.ts";

/** Headings, sight over a round body, horizons on a grid, light by them. */

const MOON_M = 1_737_400;
const size = { columns: 201, rows: 201, cellM: 10, westM: -1000, southM: -1000 };
const wall = hill(size, (e) => (e >= 400 ? 101.5 : 0));

/** A bank 21.5 m high to the east, 200 m away. */
const bank = {
  type: "grid" as const,
  westM: -300,
  southM: -300,
  cellM: 10,
  columns: 61,
  rows: 61,
  unit: "cm" as const,
  heights: Array.from({ length: 61 }, () =>
    Array.from({ length: 61 }, (_, column) => (column >= 50 ? 2150 : 0)).join(" "),
  ),
};
const touchdownUtc = "2031-05-02T00:00:00Z";
const site = { latDeg: 12, lonDeg: -33, elevationM: 0 };

/** Hours from touchdown at which the reference's sun climbs over the bank as seen 20 m under its top, 200 m away. */
function clearsBankH(): number {
  const at = (seconds: number): number => {
    const epochMs = Date.parse(touchdownUtc) + seconds * 1000;
    const seen = seenFrom(site, subSolar(epochMs));
    const awayM = 200 / Math.cos(((90 - seen.azimuthDeg) * Math.PI) / 180);
    return seen.elevationDeg - (Math.atan2(20, awayM) * 180) / Math.PI;
  };
  let low = 0;
  let high = 86_400;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (at(middle) < 0) low = middle;
    else high = middle;
  }
  return high / 3600;
}

export const horizonCases: readonly Case[] = [
  {
    model: "bearing",
    what: "3 east and 3 north",
    source: "atan2",
    provenance: "arithmetic",
    unit: "degrees",
    value: 45,
    ours: () => bearingDeg(3, 3),
    within: 1e-9,
  },
  {
    model: "bearing",
    what: "between 350 and 15 degrees",
    source: "shorter turn",
    provenance: "arithmetic",
    unit: "degrees",
    value: 25,
    ours: () => apartDeg(350, 15),
    within: 1e-9,
  },
  {
    model: "sight",
    what: "the ground at the horizon's distance of 2283.0 m stands at the dip of an eye 1.5 m up on the Moon",
    source: "sqrt(2 R h + h^2); acos(R / (R + h))",
    provenance: "published",
    unit: "degrees",
    value: -dipDeg(1.5, MOON_M),
    ours: () => sightDeg(Math.sqrt(2 * MOON_M * 1.5 + 1.5 ** 2), 0, 1.5, MOON_M),
    within: 0.00001,
  },
  {
    model: "sight",
    what: "dip of an eye 1.5 m up on the Moon, acos(R / (R + h))",
    source: "acos(R / (R + h))",
    provenance: "arithmetic",
    unit: "degrees",
    value: 0.07529,
    ours: () => dipDeg(1.5, MOON_M),
    within: 0.00001,
  },
  {
    model: "sight",
    what: "100 m over the eye at 1 km: atan 0.1 less half the turn of the ground",
    source: "plane triangle, curvature to first order",
    provenance: "arithmetic",
    unit: "degrees",
    value: 5.7106 - 0.0163,
    ours: () => sightDeg(1000, 101.5, 1.5, MOON_M),
    within: 0.0005,
  },
  {
    model: "terrain/skyline",
    what: "a wall 100 m over the eye, 400 m east, 10 m grid: atan(100 / 400)",
    source: "plane triangle",
    provenance: "arithmetic",
    unit: "degrees",
    value: 14.0362,
    ours: () => horizonAt(skylineAt(wall, { eastM: 0, northM: 0 }, MOON_M)!, 90).mostDeg,
    within: 0.02,
  },
  {
    model: "terrain/skyline",
    what: "the same 60 degrees off its normal: atan(100 / 800)",
    source: "plane triangle",
    provenance: "arithmetic",
    unit: "degrees",
    value: 7.125,
    ours: () => horizonAt(skylineAt(wall, { eastM: 0, northM: 0 }, MOON_M)!, 30).mostDeg,
    within: 0.1,
  },
  {
    model: "terrain/heavens",
    what: "sunrise behind a bank 20 m over the eye 200 m east, from 2031-05-02 at 12, -33; 0.1 degrees is 0.2 h",
    source: "sub-solar point after Meeus 1998, Astronomical Algorithms, ch. 53 (value from memory)",
    provenance: "reference",
    unit: "h",
    value: clearsBankH(),
    ours: () => {
      const body = { radiusM: MOON_M, ephemeris: "moon" } as const;
      const heavens = heavensOf({ body, site, stay: { touchdownUtc, lengthS: 86_400 }, ground: bank });
      return heavens.light([{ eastM: 0, northM: 0 }], "lit")![0]!.startS / 3600;
    },
    within: 0.25,
  },
];
