import { check as checkGeoJson } from "@placemarkio/check-geojson";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cutLine, cutRing, type Degrees } from "../../src/exchange/antimeridian.ts";
import { planKml } from "../../src/exchange/export/kml.ts";
import { planGeoJson, readGeoJson } from "../../src/exchange/geojson.ts";
import type { Plan } from "../../src/plan/index.ts";
import { samplePlan } from "./samplePlan.ts";

/** Twice the area in square degrees, positive for anticlockwise rings. */
function area(ring: readonly (readonly [number, number])[]): number {
  return ring.slice(1).reduce((sum, [x, y], k) => sum + ring[k]![0] * y - x * ring[k]![1], 0);
}

function at(lonDeg: number, latDeg = 12): Plan {
  const plan = samplePlan();
  const points = [
    { eastM: -800, northM: -100 },
    { eastM: 900, northM: -150 },
    { eastM: 700, northM: 400 },
  ];
  return {
    ...plan,
    site: {
      ...plan.site,
      latDeg,
      lonDeg,
      keepOuts: [
        { id: "fan", name: "Fan", kind: "walking", shape: { type: "polygon", points }, exemptTasks: [] },
        {
          id: "disc",
          name: "Disc",
          kind: "walking",
          shape: { type: "disc", eastM: 0, northM: 0, radiusM: 250 },
          exemptTasks: [],
        },
      ],
    },
  };
}
const WAY = {
  name: "Way",
  kind: "way",
  points: [
    { eastM: -500, northM: 0 },
    { eastM: 500, northM: 200 },
  ],
};

interface Feature {
  readonly geometry: { readonly type: string; readonly coordinates: readonly never[] };
  readonly properties: { readonly name: string };
}
const featuresOf = (plan: Plan) =>
  (JSON.parse(planGeoJson(plan, [WAY])) as { features: readonly Feature[] }).features;

describe("a line over the meridian of 180 degrees", () => {
  it("is cut there, whichever way it runs and as often as it does (RFC 7946, 3.1.9)", () => {
    // The example of the RFC: a line from 170 east over 180 to 170 west, 40 to 50 north.
    expect(
      cutLine([
        [170, 40],
        [-170, 50],
      ]),
    ).toEqual([
      [
        [170, 40],
        [180, 45],
      ],
      [
        [-180, 45],
        [-170, 50],
      ],
    ]);
    expect(
      cutLine([
        [-179, 1],
        [179, 3],
        [-179, 5],
      ]),
    ).toEqual([
      [
        [-179, 1],
        [-180, 2],
      ],
      [
        [180, 2],
        [179, 3],
        [180, 4],
      ],
      [
        [-180, 4],
        [-179, 5],
      ],
    ]);
  });

  it("stays whole where it only comes up to it", () => {
    const lines: Degrees[][] = [
      [
        [179, 0],
        [180, 1],
        [179, 2],
      ],
      [
        [-10, 0],
        [10, 0],
      ],
    ];
    for (const line of lines) expect(cutLine(line)).toEqual([line]);
  });
});

describe("a ring over the meridian of 180 degrees", () => {
  it("is cut into rings that run the same way and cover the same ground", () => {
    // The example of the RFC: 170 east to 170 west, 40 to 50 north.
    const ring: Degrees[] = [
      [170, 40],
      [-170, 40],
      [-170, 50],
      [170, 50],
      [170, 40],
    ];
    const pieces = cutRing(ring);
    expect(pieces).toHaveLength(2);
    for (const piece of pieces) {
      expect(piece[0]).toEqual(piece.at(-1));
      expect(area(piece)).toBe(200);
    }
    expect(pieces.map((piece) => [...new Set(piece.map(([lon]) => lon))].sort((a, b) => a - b))).toEqual([
      [170, 180],
      [-180, -170],
    ]);
  });

  it("has the pole in it where it runs round one", () => {
    for (const [sign, lons] of [
      [1, [-135, -45, 45, 135, -135]],
      [-1, [135, 45, -45, -135, 135]],
    ] as const) {
      const pieces = cutRing(lons.map((lon): Degrees => [lon, sign * 88]));
      // Two degrees of latitude over all longitudes.
      expect(pieces.reduce((sum, piece) => sum + area(piece), 0)).toBeCloseTo(2 * 2 * 360, 6);
      for (const piece of pieces)
        for (const [k, [lon]] of piece.entries())
          if (k > 0) expect(Math.abs(lon - piece[k - 1]![0])).toBeLessThanOrEqual(180);
    }
  });

  it("loses no ground wherever it lies", () => {
    const ring = fc
      .tuple(
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.array(fc.double({ min: 0.5, max: 20, noNaN: true }), { minLength: 3, maxLength: 12 }),
      )
      .map(([middle, reaches]) => {
        const corners = reaches.map((reach, k): Degrees => {
          const turn = (2 * Math.PI * k) / reaches.length;
          const lon = middle + reach * Math.cos(turn);
          return [lon > 180 ? lon - 360 : lon < -180 ? lon + 360 : lon, reach * Math.sin(turn)];
        });
        const whole = reaches.map((reach, k): Degrees => {
          const turn = (2 * Math.PI * k) / reaches.length;
          return [reach * Math.cos(turn), reach * Math.sin(turn)];
        });
        return { cut: cutRing([...corners, corners[0]!]), area: area([...whole, whole[0]!]) };
      });
    fc.assert(
      fc.property(ring, ({ cut, area: wanted }) => {
        for (const [lon] of cut.flat()) expect(Math.abs(lon)).toBeLessThanOrEqual(180);
        expect(cut.reduce((sum, piece) => sum + area(piece), 0)).toBeCloseTo(wanted, 6);
      }),
    );
  });
});

describe("a site on the meridian of 180 degrees", () => {
  it.each([180, -180, 179.99, -179.995])("has no edge round the body in its files, at %s", (lonDeg) => {
    const plan = at(lonDeg);
    const text = planGeoJson(plan, [WAY]);
    expect(checkGeoJson(text).type).toBe("FeatureCollection");
    const features = featuresOf(plan);
    const types = new Map(features.map(({ geometry, properties }) => [properties.name, geometry.type]));
    expect([types.get("Fan"), types.get("Way")]).toEqual(["MultiPolygon", "MultiLineString"]);
    const kml = planKml(plan, [WAY], 0);
    expect(kml.match(/<MultiGeometry>/g)?.length).toBe(
      features.filter(({ geometry }) => geometry.type.startsWith("Multi")).length,
    );
    for (const [, where = ""] of kml.matchAll(/<coordinates>([^<]*)</g)) {
      const lons = where.split(" ").map((pair) => Number(pair.split(",")[0]));
      expect(Math.max(...lons) - Math.min(...lons)).toBeLessThan(1);
    }
  });

  it("is read back with all of its ground", () => {
    const read = readGeoJson(planGeoJson(at(180), [WAY]), at(180));
    const sum = (name: string): number =>
      (read.ok ? read.value.keepOuts : [])
        .filter((one) => one.name === name)
        .reduce((total, { shape }) => {
          const points = shape.type === "polygon" ? shape.points : [];
          const ring = [...points, points[0]!].map(({ eastM, northM }) => [eastM, northM] as const);
          return total + area(ring) / 2;
        }, 0);
    // Edges from the first corner: (1700, -50) and (1500, 500) m. A disc is written as 64 corners round it.
    expect(sum("Fan")).toBeCloseTo((1700 * 500 + 1500 * 50) / 2, -2);
    expect(sum("Disc")).toBeGreaterThan(Math.PI * 250 ** 2);
    expect(read.ok && read.value.leftOut).toBe(1);
  });
});

describe("a file of a site", () => {
  const collection = (geometry: object, more: object = {}): string =>
    JSON.stringify({
      type: "FeatureCollection",
      ...more,
      features: [{ type: "Feature", geometry, properties: { name: "Pit" } }],
    });

  it("keeps the last corner of a ring that is not closed: without it the ground kept out of is smaller", () => {
    const plan = at(10, 0);
    const corners = [
      [10, 0],
      [10.01, 0],
      [10.01, 0.01],
      [10, 0.01],
    ];
    const read = (ring: number[][]) =>
      readGeoJson(collection({ type: "Polygon", coordinates: [ring] }), plan);
    expect(read(corners)).toEqual(read([...corners, corners[0]!]));
    const open = read(corners);
    expect(open.ok && open.value.keepOuts[0]?.shape).toMatchObject({ points: { length: 4 } });
  });

  it("is refused where it says that it is of a body of another size", () => {
    const point = { type: "Point", coordinates: [10, 0] };
    const plan = at(10, 0);
    const body = (radiusM: number) =>
      readGeoJson(collection(point, { body: { name: "Elsewhere", radiusM } }), plan);
    expect(body(plan.body.radiusM).ok).toBe(true);
    expect(body(plan.body.radiusM * 2)).toMatchObject({ ok: false, error: /mean radius/ });
  });
});
