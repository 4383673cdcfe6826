/**
 * Lines and rings in longitude and latitude, cut where they cross the meridian of 180 degrees: a map program draws each edge as it
 * stands, and one from 179.9 to -179.9 degrees would run once round the body (RFC 7946, 3.1.9). Edges are straight between longitude
 * and latitude, as that RFC has them (3.1.1), and cuts are made on them.
 */

/** Longitude and latitude, degrees. */
export type Degrees = readonly [lonDeg: number, latDeg: number];

/** The pieces of a line, in order, each with longitudes from -180 to 180. */
export function cutLine(line: readonly Degrees[]): readonly (readonly Degrees[])[] {
  const pieces: Degrees[][] = [];
  let piece: Degrees[] = [];
  const whole = unwrapped(line);
  for (const [k, to] of whole.entries()) {
    const from = whole[k - 1];
    for (const seam of from ? seamsBetween(from[0], to[0]) : []) {
      const at = onEdge(from!, to, seam);
      piece.push(at);
      pieces.push(piece);
      piece = [at];
    }
    piece.push(to);
  }
  return [...pieces, piece].filter((one) => one.length > 1).map(inRange);
}

/**
 * The pieces of a ring whose last point is its first one, each such a ring again and run through the same way. One that runs round a
 * pole has the pole in it.
 */
export function cutRing(ring: readonly Degrees[]): readonly (readonly Degrees[])[] {
  const corners = unwrapped(withPole(unwrapped(ring)));
  const lons = corners.map(([lon]) => lon);
  const first = turnOf(Math.min(...lons));
  const last = turnOf(Math.max(...lons));
  const pieces: (readonly Degrees[])[] = [];
  for (let turn = first; turn <= last; turn += 1) {
    const west = turn * 360 - 180;
    const strip = beside(beside(corners, west, 1), west + 360, -1);
    const piece = strip.length > 0 ? [...strip, strip[0]!] : strip;
    if (areaOf(piece) !== 0) pieces.push(inRange(piece));
  }
  return pieces.length > 0 ? pieces : [ring];
}

/** The same points with longitudes that go on beyond 180 where the way does: none lies more than 180 from the one before it. */
function unwrapped(line: readonly Degrees[]): readonly Degrees[] {
  let before = line[0]?.[0] ?? 0;
  return line.map(([lon, lat]) => {
    // One that is just so far is left as it is.
    const turns = Math.abs(lon - before) > 180 ? Math.round((before - lon) / 360) : 0;
    before = lon + turns * 360;
    return [before, lat];
  });
}

/** The corners of a ring without its last point, led over the pole where it runs round one. */
function withPole(ring: readonly Degrees[]): readonly Degrees[] {
  const [start] = ring;
  const end = ring.at(-1);
  if (!start || !end || Math.abs(end[0] - start[0]) < 180) return ring.slice(0, -1);
  const poleDeg = ring.reduce((sum, [, lat]) => sum + lat, 0) < 0 ? -90 : 90;
  // In steps of a quarter of a turn, so that no edge of it is taken for one that goes the short way round.
  const back = [1, 0.75, 0.5, 0.25, 0].map((share): Degrees => {
    return [start[0] + share * (end[0] - start[0]), poleDeg];
  });
  return [...ring, ...back];
}

/** Which turn round the body a longitude lies in: 0 from -180 to 180. */
function turnOf(lon: number): number {
  return Math.floor((lon + 180) / 360);
}

/** The meridians of 180 degrees that lie between two longitudes, in the order in which they are crossed. */
function seamsBetween(from: number, to: number): readonly number[] {
  const seam = 180 + 360 * turnOf((from + to) / 2);
  const near = [seam - 360, seam].filter((one) => (one - from) * (one - to) < 0);
  return to < from ? near.toReversed() : near;
}

function onEdge([fromLon, fromLat]: Degrees, [toLon, toLat]: Degrees, lon: number): Degrees {
  return [lon, fromLat + ((lon - fromLon) / (toLon - fromLon)) * (toLat - fromLat)];
}

/** The corners on one side of a meridian: east of it for 1, west for -1 (Sutherland & Hodgman 1974, Commun. ACM 17, 32). */
function beside(corners: readonly Degrees[], lon: number, side: 1 | -1): readonly Degrees[] {
  const isIn = (at: Degrees): boolean => (at[0] - lon) * side >= 0;
  return corners.flatMap((to, k) => {
    const from = corners.at(k - 1)!;
    const crossing = isIn(from) === isIn(to) ? [] : [onEdge(from, to, lon)];
    return isIn(to) ? [...crossing, to] : crossing;
  });
}

function areaOf(ring: readonly Degrees[]): number {
  return ring.reduce((sum, [lon, lat], k) => {
    const [nextLon, nextLat] = ring[k + 1] ?? [lon, lat];
    return sum + lon * nextLat - nextLon * lat;
  }, 0);
}

/** The piece with its longitudes from -180 to 180: it lies in one turn. */
function inRange(piece: readonly Degrees[]): readonly Degrees[] {
  const lons = piece.map(([lon]) => lon);
  const turn = turnOf((Math.min(...lons) + Math.max(...lons)) / 2);
  return piece.map(([lon, lat]) => [lon - turn * 360, lat]);
}
