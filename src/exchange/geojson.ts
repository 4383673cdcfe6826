import { done, failed, type Outcome } from "../kernel/index.ts";
import type { KeepOut, Place, Plan } from "../plan/index.ts";
import { cutLine, cutRing, type Degrees } from "./antimeridian.ts";
import { idFrom } from "./lists/names.ts";
import { planStateRecord } from "./planstate.ts";
import { type Centre, degreesOf, metresOf } from "./sphere.ts";

/**
 * Places, keep-outs and lines as GeoJSON (RFC 7946), longitude and latitude on the plan's body by its mean radius:
 * readers that take every GeoJSON for the Earth must be told. A disc becomes a polygon of 64 corners round it, never
 * smaller than the disc.
 */

/** A line to be written beside the plan's own things: a way, a line of equal walk-back. */
export interface NamedLine {
  readonly name: string;
  readonly kind: string;
  readonly points: readonly PointFeature[];
}

interface PointFeature {
  readonly eastM: number;
  readonly northM: number;
}

const DISC_CORNERS = 64;

/** A thing of the site in longitude and latitude: a point, the ring of a polygon, or a line. */
export interface SiteFeature {
  readonly id: string | null;
  readonly name: string;
  readonly kind: string;
  readonly type: "Point" | "Polygon" | "LineString";
  /** The pieces into which the meridian of 180 degrees cuts it: one point, rings with the first point again at the end, lines. */
  readonly pieces: readonly (readonly Degrees[])[];
}

/** The plan's places and keep-outs and the given lines in longitude and latitude. */
export function siteFeatures(plan: Plan, lines: readonly NamedLine[]): readonly SiteFeature[] {
  const centre = centreOf(plan);
  const at = ({ eastM, northM }: PointFeature): [number, number] => degreesOf(centre, eastM, northM);
  return [
    ...plan.site.places.map((place): SiteFeature => {
      const { id, name, kind } = place;
      return { id, name, kind, type: "Point", pieces: [[at(place)]] };
    }),
    ...plan.site.keepOuts.map(({ id, name, kind, shape }): SiteFeature => {
      return { id, name, kind, type: "Polygon", pieces: cutRing(ringOf(cornersOf(shape)).map(at)) };
    }),
    ...lines.map(({ name, kind, points }): SiteFeature => {
      return { id: null, name, kind, type: "LineString", pieces: cutLine(points.map(at)) };
    }),
  ];
}

/**
 * The plan's places and keep-outs and the given lines as a GeoJSON FeatureCollection, with its body and the state of the plan as foreign members
 * (RFC 7946, 6.1). `madeMs` is when it is written, milliseconds since 1970.
 */
export function planGeoJson(plan: Plan, lines: readonly NamedLine[], madeMs?: number): string {
  const features = siteFeatures(plan, lines).map(({ id, name, kind, type, pieces }) => {
    const parts = pieces.map((degrees) =>
      type === "Point" ? degrees[0] : type === "Polygon" ? [degrees] : degrees,
    );
    const geometry =
      parts.length === 1 ? { type, coordinates: parts[0] } : { type: `Multi${type}`, coordinates: parts };
    const properties = { name, kind };
    return { type: "Feature", ...(id === null ? {} : { id }), geometry, properties };
  });
  const body = { name: plan.body.name, radiusM: plan.body.radiusM };
  return `${JSON.stringify({ type: "FeatureCollection", plan: planStateRecord(plan, madeMs), body, features }, null, 1)}\n`;
}

function centreOf(plan: Plan): Centre {
  const { latDeg, lonDeg, elevationM } = plan.site;
  return { latDeg, lonDeg, radiusM: plan.body.radiusM + elevationM };
}

function cornersOf(shape: KeepOut["shape"]): readonly PointFeature[] {
  if (shape.type === "polygon") return shape.points;
  const radiusM = shape.radiusM / Math.cos(Math.PI / DISC_CORNERS);
  return Array.from({ length: DISC_CORNERS }, (_, k) => ({
    eastM: shape.eastM + radiusM * Math.cos((2 * Math.PI * k) / DISC_CORNERS),
    northM: shape.northM + radiusM * Math.sin((2 * Math.PI * k) / DISC_CORNERS),
  }));
}

/** The corners anticlockwise, as outer rings run, the first again at the end. */
function ringOf(corners: readonly PointFeature[]): PointFeature[] {
  const area = corners.reduce((sum, a, k) => {
    const b = corners[(k + 1) % corners.length]!;
    return sum + a.eastM * b.northM - b.eastM * a.northM;
  }, 0);
  const ring = area < 0 ? [...corners].reverse() : [...corners];
  return [...ring, ring[0]!];
}

/** What a GeoJSON file adds to a site. */
export interface GeoJsonSite {
  readonly places: readonly Place[];
  readonly keepOuts: readonly KeepOut[];
  /** Things of the file that are neither points nor polygons, counted. */
  readonly leftOut: number;
}

/**
 * Points as places and polygons (outer rings, each of several by itself) as walking keep-outs, by longitude and latitude on the plan's body, to
 * the centimetre; or what is wrong with the text in words. Names in the document are made from the features' own and
 * never clash with those of the plan. The plan is not changed.
 */
export function readGeoJson(text: string, plan: Plan): Outcome<GeoJsonSite, string> {
  const features = featuresOf(text, plan.body);
  if (!features.ok) return features;
  const centre = centreOf(plan);
  const taken = new Set([...plan.site.places, ...plan.site.keepOuts].map((one) => one.id));
  const places: Place[] = [];
  const keepOuts: KeepOut[] = [];
  let leftOut = 0;
  for (const [k, feature] of features.value.entries()) {
    const { type, coordinates } = geometryOf(feature);
    const name = nameOf(feature, k);
    if (type === "Point") {
      const point = pointOf(centre, coordinates);
      if (!point)
        return failed(
          `feature ${k + 1} ("${name}") has no longitude and latitude on the body near the lander`,
        );
      places.push({ id: idFrom(name, "place", taken), name, kind: "station", ...point, upM: 0 });
    } else if (type === "Polygon" || type === "MultiPolygon") {
      const rings = ringsOf(centre, type === "Polygon" ? [coordinates] : coordinates);
      if (!rings)
        return failed(
          `feature ${k + 1} ("${name}") has no ring of 3 to 500 corners on the body near the lander`,
        );
      keepOuts.push(...rings.map((points) => keepOutOf(points, name, idFrom(name, "keep-out", taken))));
    } else leftOut += 1;
  }
  return done({ places, keepOuts, leftOut });
}

function keepOutOf(points: PointFeature[], name: string, id: string): KeepOut {
  return { id, name, kind: "walking", shape: { type: "polygon", points }, exemptTasks: [] };
}

/** The features of a collection, not looked at yet; refused where it says itself that it is of another body, whose degrees are other metres. */
function featuresOf(text: string, { name, radiusM }: Plan["body"]): Outcome<readonly unknown[], string> {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    return failed(`this is not JSON: ${error instanceof Error ? error.message : "unreadable"}`);
  }
  const body = isRecord(data) && isRecord(data["body"]) ? data["body"] : {};
  if (typeof body["radiusM"] === "number" && body["radiusM"] !== radiusM)
    return failed(
      `it is of a body with a mean radius of ${body["radiusM"]} m, and that of ${name} is ${radiusM} m in the plan`,
    );
  const features = isRecord(data) && data["type"] === "FeatureCollection" ? data["features"] : null;
  return Array.isArray(features) ? done(features) : failed("this is no GeoJSON FeatureCollection");
}

function geometryOf(feature: unknown): { readonly type: unknown; readonly coordinates: unknown } {
  const geometry: unknown = isRecord(feature) ? feature["geometry"] : null;
  return isRecord(geometry)
    ? { type: geometry["type"], coordinates: geometry["coordinates"] }
    : { type: null, coordinates: null };
}

/** The outer rings of some polygons; null where one of them is none for a plan, or there is no polygon. */
function ringsOf(centre: Centre, polygons: unknown): readonly PointFeature[][] | null {
  const rings = (Array.isArray(polygons) ? polygons : []).map((one) => outerRing(centre, one));
  const found = rings.filter((ring): ring is PointFeature[] => ring !== null);
  return found.length > 0 && found.length === rings.length ? found : null;
}

/** The corners of a polygon's outer ring; null where they are none for a plan. */
function outerRing(centre: Centre, coordinates: unknown): PointFeature[] | null {
  const ring: unknown = Array.isArray(coordinates) ? coordinates[0] : null;
  const corners = Array.isArray(ring) ? ring.map((one) => pointOf(centre, one)) : [];
  const points = corners.filter((one): one is PointFeature => one !== null);
  if (points.length < corners.length) return null;
  // The last one is the first again. Where a writer left that out, it is a corner like any other: without it the ground kept out of is smaller.
  const [first, last] = [points[0], points.at(-1)];
  if (first && last && first.eastM === last.eastM && first.northM === last.northM) points.pop();
  return points.length >= 3 && points.length <= 500 ? points : null;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function nameOf(feature: unknown, k: number): string {
  const properties = isRecord(feature) ? feature["properties"] : null;
  const name = isRecord(properties) ? properties["name"] : null;
  const words = typeof name === "string" ? name.trim().slice(0, 120) : "";
  return words === "" ? `Feature ${k + 1}` : words;
}

/** East and north of the lander to the centimetre; null where the coordinates are none, or too far for a plan. */
function pointOf(centre: Centre, coordinates: unknown): PointFeature | null {
  if (!Array.isArray(coordinates)) return null;
  const [lonDeg, latDeg] = coordinates as unknown[];
  if (typeof lonDeg !== "number" || typeof latDeg !== "number") return null;
  if (!(Math.abs(lonDeg) <= 360 && Math.abs(latDeg) <= 90)) return null;
  const { eastM, northM } = metresOf(centre, lonDeg, latDeg);
  if (Math.max(Math.abs(eastM), Math.abs(northM)) > 100_000) return null;
  return { eastM: Math.round(eastM * 100) / 100 + 0, northM: Math.round(northM * 100) / 100 + 0 };
}
