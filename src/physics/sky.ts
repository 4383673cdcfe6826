import { Body, GeoVector, HelioVector, MakeTime, RotationAxis, type Vector } from "astronomy-engine";

/**
 * Where the sun and the Earth stand in the sky over a point of the Moon.
 *
 * Positions and the Moon's rotation (physical librations included) come from astronomy-engine; here they are only
 * turned into the local horizon. The observer's own place is taken into account (the Earth shifts by up to 0.26
 * degrees). Range: years 1900 to 2100. Not covered: terrain, the sun's disc (radius 0.27 degrees), the aberration
 * of sunlight (0.006 degrees).
 */

/** A direction in the local sky. */
export interface SkyDirection {
  /** Above the level horizon, degrees. */
  readonly elevationDeg: number;
  /** From north through east, degrees, 0 to 360. */
  readonly azimuthDeg: number;
}

export interface Observer {
  readonly latDeg: number;
  readonly lonDeg: number;
  /** Distance from the Moon's centre, m. */
  readonly radiusM: number;
}

const METRES_PER_AU = 149_597_870_700;
const RADIANS = Math.PI / 180;

/** The sun's direction at `epochMs` (UTC milliseconds since 1970) for `observer` on the Moon. */
export function moonSun(epochMs: number, observer: Observer): SkyDirection {
  const time = MakeTime(new Date(epochMs));
  const moon = HelioVector(Body.Moon, time);
  return localDirection(epochMs, observer, { x: -moon.x, y: -moon.y, z: -moon.z });
}

/** The Earth's direction at `epochMs` for `observer` on the Moon. */
export function moonEarth(epochMs: number, observer: Observer): SkyDirection {
  const moon: Vector = GeoVector(Body.Moon, MakeTime(new Date(epochMs)), true);
  return localDirection(epochMs, observer, { x: -moon.x, y: -moon.y, z: -moon.z });
}

interface Xyz {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

function localDirection(epochMs: number, observer: Observer, fromCentre: Xyz): SkyDirection {
  const [x, y, z] = toBodyFixed(epochMs, fromCentre);
  const lat = observer.latDeg * RADIANS;
  const lon = observer.lonDeg * RADIANS;
  const radius = observer.radiusM / METRES_PER_AU;
  const up = [Math.cos(lat) * Math.cos(lon), Math.cos(lat) * Math.sin(lon), Math.sin(lat)] as const;
  const east = [-Math.sin(lon), Math.cos(lon), 0] as const;
  const north = [-Math.sin(lat) * Math.cos(lon), -Math.sin(lat) * Math.sin(lon), Math.cos(lat)] as const;
  const seen = [x - radius * up[0], y - radius * up[1], z - radius * up[2]] as const;
  const along = (axis: readonly [number, number, number]): number =>
    seen[0] * axis[0] + seen[1] * axis[1] + seen[2] * axis[2];
  const elevationDeg = Math.asin(along(up) / Math.hypot(...seen)) / RADIANS;
  const azimuthDeg = (Math.atan2(along(east), along(north)) / RADIANS + 360) % 360;
  return { elevationDeg, azimuthDeg };
}

/** Equatorial J2000 to the Moon's own axes: z to its north pole, x to its prime meridian. */
function toBodyFixed(epochMs: number, v: Xyz): [number, number, number] {
  const axis = RotationAxis(Body.Moon, MakeTime(new Date(epochMs)));
  const pole = axis.north;
  const rightAscension = axis.ra * 15 * RADIANS;
  const node: Xyz = { x: -Math.sin(rightAscension), y: Math.cos(rightAscension), z: 0 };
  const beside = cross(pole, node);
  const spin = axis.spin * RADIANS;
  const prime: Xyz = {
    x: node.x * Math.cos(spin) + beside.x * Math.sin(spin),
    y: node.y * Math.cos(spin) + beside.y * Math.sin(spin),
    z: node.z * Math.cos(spin) + beside.z * Math.sin(spin),
  };
  return [dot(v, prime), dot(v, cross(pole, prime)), dot(v, pole)];
}

function cross(a: Xyz, b: Xyz): Xyz {
  return { x: a.y * b.z - a.z * b.y, y: a.z * b.x - a.x * b.z, z: a.x * b.y - a.y * b.x };
}

function dot(a: Xyz, b: Xyz): number {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
