import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planGeoJson, readGeoJson } from "../../src/exchange/geojson.ts";
import { degreesOf, metresOf } from "../../src/exchange/sphere.ts";
import { parse } from "../../src/plan/index.ts";
import { completePlan } from "../plan/completePlan.ts";
import { evenly } from "../physics/evenly.ts";

const read = parse(completePlan);
if (!read.ok) throw new Error(JSON.stringify(read.error));
const plan = read.value;

interface Feature {
  id?: string;
  geometry: { type: string; coordinates: unknown };
  properties: { name: string; kind: string };
}
type Ring = readonly (readonly [lonDeg: number, latDeg: number])[];
const ringIn = ({ geometry }: Feature): Ring => (geometry.coordinates as Ring[])[0]!;
const featuresOf = (text: string): Feature[] => (JSON.parse(text) as { features: Feature[] }).features;

describe("metres and degrees", () => {
  it("go there and back, to a tenth of a millimetre, anywhere on the body", () => {
    fc.assert(
      fc.property(
        evenly(-90, 90),
        evenly(-180, 180),
        evenly(-9e4, 9e4),
        evenly(-9e4, 9e4),
        (latDeg, lonDeg, e, n) => {
          const centre = { latDeg, lonDeg, radiusM: 1_737_400 };
          const back = metresOf(centre, ...degreesOf(centre, e, n));
          expect(Math.hypot(back.eastM - e, back.northM - n)).toBeLessThan(1e-4);
        },
      ),
    );
  });

  it("has 30.323 km in a degree of latitude on the Moon, and half as much of longitude at 60 degrees", () => {
    const perDegree = (Math.PI * 1_737_400) / 180;
    const [lon, lat] = degreesOf({ latDeg: 0, lonDeg: 10, radiusM: 1_737_400 }, 0, perDegree);
    expect([lon, lat]).toEqual([10, expect.closeTo(1, 9)]);
    const [east] = degreesOf({ latDeg: 60, lonDeg: 0, radiusM: 1_737_400 }, perDegree / 2000, 0);
    expect(east * 1000).toBeCloseTo(1, 5);
  });
});

describe("GeoJSON of a plan", () => {
  const line = {
    name: "Way",
    kind: "way",
    points: [
      { eastM: 0, northM: 0 },
      { eastM: 400, northM: 250 },
    ],
  };
  const features = featuresOf(planGeoJson(plan, [line]));

  it("has a feature for every place, keep-out and line", () => {
    expect(features.map((one) => [one.geometry.type, one.properties.name])).toEqual([
      ["Point", "Lander"],
      ["Point", "Ridge"],
      ["Point", "Array"],
      ["Polygon", "Hot unit"],
      ["Polygon", "Pit"],
      ["LineString", "Way"],
    ]);
    expect(features[0]!.geometry.coordinates).toEqual([-30.77, 20.19]);
  });

  it("has closed rings that run anticlockwise, and no disc smaller than it is", () => {
    for (const polygon of features.filter((one) => one.geometry.type === "Polygon")) {
      const ring = ringIn(polygon);
      expect(ring.at(-1)).toEqual(ring[0]);
      const area = ring.slice(1).reduce((sum, b, k) => sum + ring[k]![0] * b[1] - b[0] * ring[k]![1], 0);
      expect(area).toBeGreaterThan(0);
    }
    const centre = { latDeg: 20.19, lonDeg: -30.77, radiusM: plan.body.radiusM - 120 };
    const corners = ringIn(features[3]!).map(([lon, lat]) => metresOf(centre, lon, lat));
    corners.slice(1).forEach((b, k) => {
      const a = corners[k]!;
      const middle = { eastM: (a.eastM + b.eastM) / 2, northM: (a.northM + b.northM) / 2 };
      expect(Math.hypot(middle.eastM + 150, middle.northM - 80)).toBeGreaterThanOrEqual(4 - 1e-6);
    });
  });

  it("comes back as places and keep-outs where they were, under names of their own", () => {
    const again = readGeoJson(planGeoJson(plan, [line]), plan);
    if (!again.ok) return expect.unreachable();
    expect(again.value.places.map(({ id, eastM, northM }) => [id, eastM, northM])).toEqual([
      ["lander-2", 0, 0],
      ["ridge-2", 400, 250],
      ["array-2", -150, 60],
    ]);
    expect(again.value.keepOuts.map((one) => [one.id, one.kind])).toEqual([
      ["hot-unit", "walking"],
      ["pit-2", "walking"],
    ]);
    expect(again.value.leftOut).toBe(1);
    const more = parse({
      ...plan,
      site: {
        ...plan.site,
        places: [...plan.site.places, ...again.value.places],
        keepOuts: [...plan.site.keepOuts, ...again.value.keepOuts],
      },
    });
    expect(more.ok ? [] : more.error).toEqual([]);
  });

  it.each([
    ["no JSON", "{", /not JSON/],
    ["no collection", '{"type":"Point"}', /no GeoJSON FeatureCollection/],
    [
      "a point on the other side",
      '{"type":"FeatureCollection","features":[{"geometry":{"type":"Point","coordinates":[150,0]}}]}',
      /feature 1 \("Feature 1"\) has no longitude and latitude on the body near the lander/,
    ],
    [
      "an open ring",
      '{"type":"FeatureCollection","features":[{"geometry":{"type":"Polygon","coordinates":[[[0,0],[1,1]]]}}]}',
      /no ring of 3 to 500 corners/,
    ],
  ])("of %s is refused in words", (_, text, words) => {
    expect(readGeoJson(text, plan)).toMatchObject({ ok: false, error: expect.stringMatching(words) });
  });
});
