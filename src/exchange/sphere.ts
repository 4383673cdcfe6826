/**
 * Between metres about the lander and degrees on the body: every point keeps its bearing and distance from the lander
 * (azimuthal equidistant on a sphere; Snyder 1987, USGS PP 1395, ch. 25). Exact there and back, at the poles too.
 */
export interface Centre {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly radiusM: number;
}

const RADIANS = Math.PI / 180;

/** Longitude and latitude, degrees, of the point so far east and north of the centre. */
export function degreesOf(centre: Centre, eastM: number, northM: number): [lonDeg: number, latDeg: number] {
  const away = Math.hypot(eastM, northM) / centre.radiusM;
  if (away === 0) return [centre.lonDeg, centre.latDeg];
  const lat = centre.latDeg * RADIANS;
  const bearing = Math.atan2(eastM, northM);
  const sine = Math.sin(lat) * Math.cos(away) + Math.cos(lat) * Math.sin(away) * Math.cos(bearing);
  const turn = Math.atan2(
    Math.sin(bearing) * Math.sin(away),
    Math.cos(lat) * Math.cos(away) - Math.sin(lat) * Math.sin(away) * Math.cos(bearing),
  );
  const lonDeg = centre.lonDeg + turn / RADIANS;
  return [((((lonDeg + 180) % 360) + 360) % 360) - 180, Math.asin(Math.min(1, Math.max(-1, sine))) / RADIANS];
}

/** East and north of the centre, m, of a longitude and latitude in degrees. */
export function metresOf(centre: Centre, lonDeg: number, latDeg: number): { eastM: number; northM: number } {
  const here = centre.latDeg * RADIANS;
  const there = latDeg * RADIANS;
  const turn = (lonDeg - centre.lonDeg) * RADIANS;
  const east = Math.cos(there) * Math.sin(turn);
  // cos(here) sin(there) - sin(here) cos(there) cos(turn), without the loss of digits of nearly equal terms.
  const north = Math.sin(there - here) + 2 * Math.sin(here) * Math.cos(there) * Math.sin(turn / 2) ** 2;
  const across = Math.hypot(east, north);
  if (across === 0) return { eastM: 0, northM: 0 };
  const along = Math.sin(here) * Math.sin(there) + Math.cos(here) * Math.cos(there) * Math.cos(turn);
  const awayM = Math.atan2(across, along) * centre.radiusM;
  return { eastM: (east / across) * awayM, northM: (north / across) * awayM };
}
