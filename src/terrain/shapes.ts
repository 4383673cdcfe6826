/** Plane shapes in local east and north metres. A rim belongs to the outside. */

/** Nearer to a polygon's edge than this is on its rim, m. */
const RIM_M = 1e-9;

export interface Point {
  readonly eastM: number;
  readonly northM: number;
}

interface Polygon {
  readonly type: "polygon";
  readonly points: readonly Point[];
}

export type Shape =
  | { readonly type: "disc"; readonly eastM: number; readonly northM: number; readonly radiusM: number }
  | Polygon;

/** The least upright rectangle about a shape, m. */
export interface Box {
  readonly west: number;
  readonly east: number;
  readonly south: number;
  readonly north: number;
}

const boxes = new WeakMap<Shape, Box>();

/** The box of `shape`, measured once a shape. */
export function boxOf(shape: Shape): Box {
  let box = boxes.get(shape);
  if (!box) boxes.set(shape, (box = measured(shape)));
  return box;
}

function measured(shape: Shape): Box {
  if (shape.type === "disc") {
    const { eastM, northM, radiusM } = shape;
    return { west: eastM - radiusM, east: eastM + radiusM, south: northM - radiusM, north: northM + radiusM };
  }
  const list = (of: (point: Point) => number): number[] => shape.points.map(of);
  return {
    west: Math.min(...list((point) => point.eastM)),
    east: Math.max(...list((point) => point.eastM)),
    south: Math.min(...list((point) => point.northM)),
    north: Math.max(...list((point) => point.northM)),
  };
}

/** True where all of `points` lie on one and the same side of the box: nothing between them is in it. */
function keepsClear({ west, east, south, north }: Box, points: readonly Point[]): boolean {
  return (
    points.every(({ eastM }) => eastM < west) ||
    points.every(({ eastM }) => eastM > east) ||
    points.every(({ northM }) => northM < south) ||
    points.every(({ northM }) => northM > north)
  );
}

/** Straight distance between two points, m. */
export function distance(a: Point, b: Point): number {
  return Math.hypot(a.eastM - b.eastM, a.northM - b.northM);
}

/** The same of a line from `a` to `b`. */
function keepsClearOf({ west, east, south, north }: Box, a: Point, b: Point): boolean {
  return (
    (a.eastM < west && b.eastM < west) ||
    (a.eastM > east && b.eastM > east) ||
    (a.northM < south && b.northM < south) ||
    (a.northM > north && b.northM > north)
  );
}

/** True when `point` lies inside `shape`; its rim is outside. */
export function inside(shape: Shape, point: Point): boolean {
  if (shape.type === "disc") return distance(shape, point) < shape.radiusM;
  return !keepsClearOf(boxOf(shape), point, point) && within(shape.points, point);
}

function within(points: readonly Point[], point: Point): boolean {
  let isIn = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i, i += 1) {
    const a = points[i]!;
    const b = points[j]!;
    if (distanceToLine(point, a, b) < RIM_M) return false;
    const straddles = a.northM > point.northM !== b.northM > point.northM;
    if (!straddles) continue;
    const crossing = a.eastM + ((point.northM - a.northM) / (b.northM - a.northM)) * (b.eastM - a.eastM);
    if (point.eastM < crossing) isIn = !isIn;
  }
  return isIn;
}

/** True when the straight line from `a` to `b` enters the inside of `shape`; touching its rim does not count. */
export function crosses(shape: Shape, a: Point, b: Point): boolean {
  if (shape.type === "disc") return distanceToLine(shape, a, b) < shape.radiusM;
  return !keepsClearOf(boxOf(shape), a, b) && entersPolygon(shape, a, b);
}

// Loops and no closures: the ground's ways ask this so often that a cold engine makes it quick, which closures make dear.
function entersPolygon(shape: Polygon, a: Point, b: Point): boolean {
  // Between two cuts with the outline a line is wholly inside or wholly outside: its middle tells which.
  const cuts = cutsWith(shape.points, a, b);
  for (let k = 0; k < cuts.length; k += 1) {
    const cut = cuts[k]!;
    const middle = (cut + (k + 1 < cuts.length ? cuts[k + 1]! : cut)) / 2;
    const point = {
      eastM: a.eastM + middle * (b.eastM - a.eastM),
      northM: a.northM + middle * (b.northM - a.northM),
    };
    if (inside(shape, point)) return true;
  }
  return false;
}

/** True when the triangle of the three points, its edges included, keeps clear of the inside of `shape`. */
export function clearTriangle(shape: Shape, a: Point, b: Point, c: Point): boolean {
  const triangle = [a, b, c];
  if (keepsClear(boxOf(shape), triangle)) return true;
  if (crosses(shape, a, b) || crosses(shape, b, c) || crosses(shape, c, a)) return false;
  // With no edge entered, a shape that meets the triangle lies wholly in it.
  return shape.type === "disc"
    ? !within(triangle, shape)
    : !shape.points.some((one) => within(triangle, one));
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

/**
 * Where the line from `a` (0) to `b` (1) meets the outline, both ends of the line included, in order; a little beyond an edge's ends does no
 * harm.
 */
function cutsWith(points: readonly Point[], a: Point, b: Point): number[] {
  const cuts = [0];
  for (let i = 0; i < points.length; i += 1) {
    const cut = cutWith(points[i]!, points[i + 1 < points.length ? i + 1 : 0]!, a, b);
    if (cut <= 0 || cut >= 1) continue;
    let at = cuts.length;
    for (; at > 1 && cuts[at - 1]! > cut; at -= 1) cuts[at] = cuts[at - 1]!;
    cuts[at] = cut;
  }
  cuts.push(1);
  return cuts;
}

/** The same with the edge between two corners; 0 where it does not meet it. */
function cutWith(from: Point, to: Point, a: Point, b: Point): number {
  const east = b.eastM - a.eastM;
  const north = b.northM - a.northM;
  const edgeEast = to.eastM - from.eastM;
  const edgeNorth = to.northM - from.northM;
  const cross = east * edgeNorth - north * edgeEast;
  if (cross === 0) {
    // Along a parallel edge only the edge's ends can be where the line leaves the outline.
    const square = east * east + north * north;
    return square > 0 ? ((from.eastM - a.eastM) * east + (from.northM - a.northM) * north) / square : 0;
  }
  const onEdge = ((from.eastM - a.eastM) * north - (from.northM - a.northM) * east) / cross;
  if (onEdge < -1e-6 || onEdge > 1 + 1e-6) return 0;
  return ((from.eastM - a.eastM) * edgeNorth - (from.northM - a.northM) * edgeEast) / cross;
}
