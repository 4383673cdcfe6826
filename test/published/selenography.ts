import { EclipticGeoMoon, Libration, SunPosition } from "astronomy-engine";

/**
 * The points of the Moon that have the Earth or the sun overhead, by another route than the product's: from ecliptic
 * longitudes and latitudes, the mean elements of the orbit and the laws of the Moon's rotation, as in Meeus 1998,
 * Astronomical Algorithms, ch. 53 (value from memory). Nothing here touches the rotation axis or the vectors that
 * src/physics/sky.ts uses. Optical librations only: physical ones and nutation together are below 0.08 degrees.
 */
export interface SubPoint {
  readonly latDeg: number;
  readonly lonDeg: number;
}

const RADIANS = Math.PI / 180;
const KM_PER_AU = 149_597_870.7;
const MOON_KM = 1737.4;
const INCLINATION = 1.54242 * RADIANS;

/** Sub-Earth point and the Earth's distance in km, from the library's own librations. */
export function subEarth(epochMs: number): SubPoint & { readonly distanceKm: number } {
  const { elat, elon, dist_km } = Libration(new Date(epochMs));
  return { latDeg: elat, lonDeg: elon, distanceKm: dist_km };
}

/** Sub-solar point: the librations of a Moon seen from the sun. */
export function subSolar(epochMs: number): SubPoint {
  const date = new Date(epochMs);
  const sun = SunPosition(date);
  const moon = EclipticGeoMoon(date);
  const ratio = moon.dist / sun.vec.Length();
  const beta = moon.lat * RADIANS;
  const lon = sun.elon + 180 + (ratio / RADIANS) * Math.cos(beta) * Math.sin((sun.elon - moon.lon) * RADIANS);
  return fromEcliptic(epochMs, lon, ratio * moon.lat);
}

/** Selenographic direction of a line of sight that ends at the Moon with ecliptic longitude and latitude of date. */
export function fromEcliptic(epochMs: number, eclipticLonDeg: number, eclipticLatDeg: number): SubPoint {
  const t = (epochMs - Date.UTC(2000, 0, 1, 12)) / (36_525 * 86_400_000);
  const argument = 93.272095 + 483_202.0175233 * t;
  const node = (125.0445479 - 1934.1362891 * t) * RADIANS;
  const w = eclipticLonDeg * RADIANS - node;
  const beta = eclipticLatDeg * RADIANS;
  const a = Math.atan2(
    Math.sin(w) * Math.cos(beta) * Math.cos(INCLINATION) - Math.sin(beta) * Math.sin(INCLINATION),
    Math.cos(w) * Math.cos(beta),
  );
  const lat = Math.asin(
    -Math.sin(w) * Math.cos(beta) * Math.sin(INCLINATION) - Math.sin(beta) * Math.cos(INCLINATION),
  );
  return { latDeg: lat / RADIANS, lonDeg: turn(a / RADIANS - argument) };
}

/** Elevation and azimuth, degrees, of the body overhead at `point`, `distanceKm` from the Moon's centre. */
export function seenFrom(
  site: SubPoint,
  point: SubPoint,
  distanceKm = KM_PER_AU,
): { elevationDeg: number; azimuthDeg: number } {
  const lat = site.latDeg * RADIANS;
  const dec = point.latDeg * RADIANS;
  const hour = (site.lonDeg - point.lonDeg) * RADIANS;
  const sine = Math.sin(lat) * Math.sin(dec) + Math.cos(lat) * Math.cos(dec) * Math.cos(hour);
  const elevationDeg = Math.atan2(sine - MOON_KM / distanceKm, Math.sqrt(1 - sine * sine)) / RADIANS;
  const azimuth = Math.atan2(
    -Math.cos(dec) * Math.sin(hour),
    Math.cos(lat) * Math.sin(dec) - Math.sin(lat) * Math.cos(dec) * Math.cos(hour),
  );
  return { elevationDeg, azimuthDeg: (azimuth / RADIANS + 360) % 360 };
}

/** An angle brought to -180 to 180 degrees. */
export function turn(deg: number): number {
  return ((((deg + 180) % 360) + 360) % 360) - 180;
}
