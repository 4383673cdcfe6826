/** Plane shapes in local east and north metres. */

export interface Point {
  readonly eastM: number;
  readonly northM: number;
}

export type Shape =
  | { readonly type: "disc"; readonly eastM: number; readonly northM: number; readonly radiusM: number }
  | { readonly type: "polygon"; readonly points: readonly Point[] };

/** Straight distance between two points, m. */
export function distance(a: Point, b: Point): number {
  return Math.hypot(a.eastM - b.eastM, a.northM - b.northM);
}

/** True when `point` lies inside `shape`; a disc's rim is outside. */
export function inside(shape: Shape, point: Point): boolean {
  if (shape.type === "disc") return distance(shape, point) < shape.radiusM;
  let within = false;
  const { points } = shape;
  for (let i = 0, j = points.length - 1; i < points.length; j = i, i += 1) {
    const a = points[i]!;
    const b = points[j]!;
    const straddles = a.northM > point.northM !== b.northM > point.northM;
    if (!straddles) continue;
    const crossing = a.eastM + ((point.northM - a.northM) / (b.northM - a.northM)) * (b.eastM - a.eastM);
    if (point.eastM < crossing) within = !within;
  }
  return within;
}

/** True when the straight line from `a` to `b` enters the inside of `shape`; touching its rim does not count. */
export function crosses(shape: Shape, a: Point, b: Point): boolean {
  if (shape.type === "disc") return distanceToLine(shape, a, b) < shape.radiusM;
  if (inside(shape, a) || inside(shape, b)) return true;
  const { points } = shape;
  return points.some((corner, i) => segmentsMeet(a, b, corner, points[(i + 1) % points.length]!));
}

/** Least distance from `point` to the straight line piece from `a` to `b`, m. */
export function distanceToLine(point: Point, a: Point, b: Point): number {
  const east = b.eastM - a.eastM;
  const north = b.northM - a.northM;
  const square = east * east + north * north;
  const along =
    square === 0 ? 0 : ((point.eastM - a.eastM) * east + (point.northM - a.northM) * north) / square;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(a.eastM + t * east - point.eastM, a.northM + t * north - point.northM);
}

function segmentsMeet(a: Point, b: Point, c: Point, d: Point): boolean {
  const side = (p: Point, q: Point, r: Point): number =>
    (q.eastM - p.eastM) * (r.northM - p.northM) - (q.northM - p.northM) * (r.eastM - p.eastM);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}
