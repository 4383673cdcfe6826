import { pulse } from "../kernel/index.ts";
import type { HeightGrid } from "./grid.ts";
import type { Point } from "./shapes.ts";

/**
 * Lines of equal value on a grid by marching squares: linear between points, saddles split by the mean of the four.
 * A point without value (infinite, NaN) counts as above every level and the line runs halfway to it.
 */

/**
 * The lines on which `values` (row by row like the grid) come to `level`, in east and north metres, joined end to
 * end.
 */
export function contour(
  grid: Pick<HeightGrid, "columns" | "rows" | "cellM" | "westM" | "southM">,
  values: Float64Array,
  level: number,
): Point[][] {
  const { columns, rows } = grid;
  /** A crossing stands on a grid edge: twice the point's number, one more for the edge to the north. */
  const next = new Map<number, number[]>();
  const link = (a: number, b: number): void => {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const list = next.get(from);
      if (list) list.push(to);
      else next.set(from, [to]);
    }
  };
  for (let row = 0; row < rows - 1; row += 1) {
    pulse();
    for (let column = 0; column < columns - 1; column += 1) {
      const at = row * columns + column;
      const sides = [2 * at, 2 * (at + 1) + 1, 2 * (at + columns), 2 * at + 1];
      const corners = [at, at + 1, at + columns + 1, at + columns];
      for (const [one, other] of lines(
        corners.map((corner) => values[corner]!),
        level,
      ))
        link(sides[one]!, sides[other]!);
    }
  }
  return chains(next).map((chain) => chain.map((edge) => crossing(grid, values, level, edge)));
}

type Line = readonly [from: number, to: number];
const [SOUTH, EAST, NORTH, WEST] = [0, 1, 2, 3] as const;
const SOUTH_WEST: Line = [SOUTH, WEST];
const SOUTH_EAST: Line = [SOUTH, EAST];
const NORTH_EAST: Line = [NORTH, EAST];
const NORTH_WEST: Line = [NORTH, WEST];
const ACROSS: Line = [WEST, EAST];
const UPWARD: Line = [SOUTH, NORTH];

/** The lines of a cell by the corners at or below the level: 1 south-west, 2 south-east, 4 north-east, 8 north-west; saddles apart. */
const LINES: readonly (readonly Line[])[] = [
  [],
  [SOUTH_WEST],
  [SOUTH_EAST],
  [ACROSS],
  [NORTH_EAST],
  [],
  [UPWARD],
  [NORTH_WEST],
  [NORTH_WEST],
  [UPWARD],
  [],
  [NORTH_EAST],
  [ACROSS],
  [SOUTH_EAST],
  [SOUTH_WEST],
  [],
];

/** The lines across a cell with `corners`, anticlockwise from the south-west, as pairs of its sides. */
function lines(corners: readonly number[], level: number): readonly Line[] {
  const below = corners.reduce((sum, value, k) => sum + (value <= level ? 1 << k : 0), 0);
  const isSaddle = below === 5 || below === 10;
  if (!isSaddle) return LINES[below]!;
  const mean = (corners[0]! + corners[1]! + corners[3]! + corners[2]!) / 4;
  return mean <= level === (below === 5) ? [SOUTH_EAST, NORTH_WEST] : [SOUTH_WEST, NORTH_EAST];
}

/** The links as chains of edges: open ones first from an end, then closed ones, which end where they begin. */
function chains(next: Map<number, number[]>): number[][] {
  const found: number[][] = [];
  const follow = (start: number): void => {
    const chain = [start];
    for (let at = start; ;) {
      const to = next.get(at)?.pop();
      if (to === undefined) break;
      const back = next.get(to)!;
      back.splice(back.indexOf(at), 1);
      chain.push(to);
      at = to;
    }
    if (chain.length > 1) found.push(chain);
  };
  for (const [edge, links] of next) if (links.length === 1) follow(edge);
  for (const edge of next.keys()) follow(edge);
  return found;
}

function crossing(
  { columns, cellM, westM, southM }: Pick<HeightGrid, "columns" | "cellM" | "westM" | "southM">,
  values: Float64Array,
  level: number,
  edge: number,
): Point {
  const at = edge >> 1;
  const isNorth = (edge & 1) === 1;
  const a = values[at]!;
  const b = values[isNorth ? at + columns : at + 1]!;
  const share = Number.isFinite(a) && Number.isFinite(b) ? (level - a) / (b - a) : 0.5;
  return {
    eastM: westM + ((at % columns) + (isNorth ? 0 : share)) * cellM,
    northM: southM + (Math.floor(at / columns) + (isNorth ? share : 0)) * cellM,
  };
}
