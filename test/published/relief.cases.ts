import { bearingDeg, craterHeightM, cratersPerM2, incidence, walkingMs } from "../../src/physics/index.ts";
import { craterDepthM } from "../../src/physics/crater.ts";
import { heightAt, isochrones, type Point, type GroundTrail } from "../../src/terrain/index.ts";
import type { Terms } from "../../src/terrain/footing.ts";
import { reachOf } from "../../src/terrain/reach.ts";
import { networkOf, trailsBetween } from "../../src/terrain/network.ts";
import { cratersOf } from "../../src/terrain/made.ts";
import { gradients } from "../../src/terrain/grid.ts";
import { hill, terms } from "../terrain/hill.ts";
import type { Case } from "./case.ts";

/** Craters, height grids, and ways over them against closed forms. */

const PIKE = "Pike 1974, Geophys Res Lett 1:291-294";
const EQUILIBRIUM = "Moore, Boyce & Hahn 1980, Moon Planets 23:231-252";
const CLOSED = "closed form";

const size = { columns: 81, rows: 81, cellM: 10, westM: -400, southM: -400 };
const lander: Point = { eastM: 0, northM: 0 };
const flat = hill(size, () => 0);
const cone = hill(size, (e, n) => 100 - Math.hypot(e, n) / 5);
const plane = hill(size, (e, n) => 0.2 * e + 0.1 * n);

/** Rise per metre to the east and to the north at a point of the plane's grid. */
function riseOfPlane(): readonly [number, number] {
  const { east, north } = gradients(plane);
  return [east[1000]!, north[1000]!];
}

/** Where the plane falls to. */
function fallOfPlaneDeg(): number {
  const [east, north] = riseOfPlane();
  return bearingDeg(-east, -north);
}

function trail(grid: typeof flat, walk: Terms, from: Point, to: Point): GroundTrail {
  return trailsBetween(networkOf(grid, walk), [from, to])[1]!;
}

/** Two tangents and an arc: the shortest way between two points 300 m either side of a disc. */
function roundDiscM(radiusM: number, offM: number): number {
  const awayM = Math.hypot(300, offM);
  const arc = Math.PI - 2 * Math.atan2(offM, 300) - 2 * Math.acos(radiusM / awayM);
  return 2 * Math.sqrt(awayM ** 2 - radiusM ** 2) + radiusM * arc;
}

const round = (radiusM: number, offM: number): Case => ({
  model: "terrain/pull",
  what: `way round a disc of ${radiusM} m, ${offM} m beside the line, 10 m grid: two tangents and an arc, 1 %`,
  source: CLOSED,
  provenance: "arithmetic",
  unit: "m",
  value: roundDiscM(radiusM, offM),
  ours: () => {
    const keepOuts = [{ type: "disc", eastM: 0, northM: offM, radiusM } as const];
    return trail(flat, { ...terms, keepOuts }, { eastM: -300, northM: 0 }, { eastM: 300, northM: 0 })
      .distanceM;
  },
  within: 0.01 * roundDiscM(radiusM, offM),
});

const STEEP = Math.tan((25 * Math.PI) / 180);
const LIMIT = Math.tan((12 * Math.PI) / 180);

/** Cumulative slope of the made craters' sizes between 15 and 60 m, by their logarithms. */
function sizeSlope(steepness: number): number {
  let small = 0;
  let large = 0;
  for (let seed = 1; seed <= 40; seed += 1) {
    const craters = cratersOf({
      seed,
      westM: 0,
      southM: 0,
      cellM: 5,
      columns: 401,
      rows: 401,
      roughnessM: 0,
      hurst: 0.9,
      cratered: 0.1,
      steepness,
      // So large that the cut-off above does not bend the count.
      largestM: 4000,
    });
    const inside = craters.filter(
      ({ eastM, northM }) => eastM >= 0 && eastM <= 2000 && northM >= 0 && northM <= 2000,
    );
    small += inside.filter((one) => one.diameterM > 15).length;
    large += inside.filter((one) => one.diameterM > 60).length;
  }
  return Math.log(small / large) / Math.log(60 / 15);
}

export const reliefCases: readonly Case[] = [
  {
    model: "crater",
    what: "depth of a fresh crater of 1 km, 0.196 D^1.010, 3 %",
    source: PIKE,
    provenance: "published",
    unit: "km",
    value: 0.196,
    ours: () => craterDepthM(1000, 1) / 1000,
    within: 0.006,
  },
  {
    model: "crater",
    what: "rim height of a fresh crater of 1 km, 0.036 D^1.014",
    source: PIKE,
    provenance: "as quoted",
    unit: "km",
    value: 0.036,
    ours: () => craterHeightM(500, 1000, 1) / 1000,
    within: 0.0004,
  },
  {
    model: "crater",
    what: "floor under the rim over diameter, fresh",
    source: PIKE,
    provenance: "published",
    unit: "share",
    value: 0.2,
    ours: () => (craterHeightM(50, 100, 1) - craterHeightM(0, 100, 1)) / 100,
    within: 0.0001,
  },
  {
    model: "crater",
    what: "craters of twice the diameter in equilibrium, as a share",
    source: EQUILIBRIUM,
    provenance: "published",
    unit: "share",
    value: 0.25,
    ours: () => cratersPerM2(40, 0.03, 2) / cratersPerM2(20, 0.03, 2),
    within: 0.0001,
  },
  {
    model: "crater",
    what: "default share of geometric saturation against `10^-1.1 D^-2` for small craters, within a factor of two",
    source: "Trask 1966, JPL TR 32-800",
    provenance: "value from memory",
    unit: "per m2 at 1 m",
    value: [10 ** -1.1 / 2, 10 ** -1.1 * 2],
    ours: () => cratersPerM2(1, 0.03, 2),
    within: 0,
  },
  {
    model: "terrain/made",
    what: "power of the size-frequency of made craters, equilibrium",
    source: EQUILIBRIUM,
    provenance: "published",
    unit: "power",
    value: 2,
    ours: () => sizeSlope(2),
    within: 0.06,
  },
  {
    model: "terrain/made",
    what: "power of the size-frequency of made craters, as produced",
    source: EQUILIBRIUM,
    provenance: "published",
    unit: "power",
    value: 2.8,
    ours: () => sizeSlope(2.8),
    within: 0.12,
  },
  {
    model: "shading",
    what: "level ground, sun 30 degrees up: the sine of the elevation",
    source: "n . s",
    provenance: "arithmetic",
    unit: "share",
    value: 0.5,
    ours: () => incidence(0, 0, { elevationDeg: 30, azimuthDeg: 123 }),
    within: 1e-9,
  },
  {
    model: "shading",
    what: "slope of 30 degrees that faces a sun 60 degrees up",
    source: "n . s",
    provenance: "arithmetic",
    unit: "share",
    value: 1,
    // Ground that rises to the west faces east, where the sun stands.
    ours: () => incidence(-Math.tan(Math.PI / 6), 0, { elevationDeg: 60, azimuthDeg: 90 }),
    within: 1e-9,
  },
  {
    model: "shading",
    what: "slope of 30 degrees away from a sun 20 degrees up",
    source: "n . s",
    provenance: "arithmetic",
    unit: "share",
    value: 0,
    // Ground that rises to the south falls to the north; the sun stands in the south.
    ours: () => incidence(0, -Math.tan(Math.PI / 6), { elevationDeg: 20, azimuthDeg: 180 }),
    within: 1e-9,
  },
  {
    model: "terrain/grid",
    what: "height of a plane, 0.2 east and 0.1 north, at 33, -47",
    source: CLOSED,
    provenance: "arithmetic",
    unit: "m",
    value: 1.9,
    ours: () => heightAt(plane, 33, -47),
    within: 1e-9,
  },
  {
    model: "terrain/grid",
    what: "slope of the same plane",
    source: CLOSED,
    provenance: "arithmetic",
    unit: "degrees",
    value: 12.6044,
    ours: () => (Math.atan(Math.hypot(...riseOfPlane())) * 180) / Math.PI,
    within: 0.0001,
  },
  {
    model: "terrain/grid",
    what: "aspect of the same plane, 180 + atan 2",
    source: CLOSED,
    provenance: "arithmetic",
    unit: "degrees",
    value: 243.4349,
    ours: fallOfPlaneDeg,
    within: 0.0001,
  },
  round(100, 0),
  round(100, 40),
  round(150, 60),
  {
    model: "terrain/footing",
    what: "300 m straight up a cone of 1 in 5: level metres that take as long",
    source: CLOSED,
    provenance: "arithmetic",
    unit: "m",
    value: (300 * Math.sqrt(1.04)) / walkingMs(1, 0.2),
    ours: () => trail(cone, terms, { eastM: 300, northM: 0 }, lander).levelM,
    within: 0.001,
  },
  {
    model: "terrain/footing",
    what: "200 m north up a plane of 25 degrees at no more than 12: the steepest line allowed, 2 %",
    source: CLOSED,
    provenance: "arithmetic",
    unit: "m",
    value: Math.hypot((200 * STEEP) / LIMIT, 200 * STEEP) / walkingMs(1, LIMIT),
    ours: () => {
      const steep = hill(size, (_, n) => n * STEEP);
      const sideM = ((200 * STEEP) / LIMIT) * Math.sqrt(1 - (LIMIT / STEEP) ** 2);
      const walk = { ...terms, upDeg: 12, downDeg: 12 };
      return trail(steep, walk, { eastM: -sideM / 2, northM: -100 }, { eastM: sideM / 2, northM: 100 })
        .levelM;
    },
    within: (0.02 * Math.hypot((200 * STEEP) / LIMIT, 200 * STEEP)) / walkingMs(1, LIMIT),
  },
  {
    model: "terrain/reach",
    what: "greatest excess of the walk-back over the straight line on level ground",
    source: "sixteen hops, Warntz 1957",
    provenance: "value from memory",
    unit: "%",
    value: [0, 2.8],
    ours: () => {
      const { levelM } = reachOf(networkOf(flat, terms), [lander]);
      const excess = (metres: number, k: number): number => {
        const exact = Math.hypot((k % 81) * 10 - 400, Math.floor(k / 81) * 10 - 400);
        return exact < 100 ? 0 : (metres / exact - 1) * 100;
      };
      return levelM.reduce((most, metres, k) => Math.max(most, excess(metres, k)), 0);
    },
    within: 0,
  },
  {
    model: "terrain/reach",
    what: "30 min at 0.2 m/s, level ground: least distance of the line, the circle of 360 m less 2.8 %",
    source: "farthest = speed times time",
    provenance: "arithmetic",
    unit: "m",
    value: [360 * 0.972, 360.001],
    ours: () => {
      const lines = isochrones(reachOf(networkOf(flat, terms), [lander]), 1800, 0.2);
      return Math.min(...lines.flat().map(({ eastM, northM }) => Math.hypot(eastM, northM)));
    },
    within: 0,
  },
];
