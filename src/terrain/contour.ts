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
  const below = (at: number): boolean => values[at]! <= level;
  for (let row = 0; row < rows - 1; row += 1) {
    pulse();
    for (let column = 0; column < columns - 1; column += 1) {
      const at = row * columns + column;
      const south = 2 * at;
      const west = 2 * at + 1;
      const east = 2 * (at + 1) + 1;
      const north = 2 * (at + columns);
      const inside =
        (below(at) ? 1 : 0) +
        (below(at + 1) ? 2 : 0) +
        (below(at + columns + 1) ? 4 : 0) +
        (below(at + columns) ? 8 : 0);
      switch (inside) {
        case 1:
        case 14:
          link(south, west);
          break;
        case 2:
        case 13:
          link(south, east);
          break;
        case 4:
        case 11:
          link(north, east);
          break;
        case 8:
        case 7:
          link(north, west);
          break;
        case 3:
        case 12:
          link(west, east);
          break;
        case 6:
        case 9:
          link(south, north);
          break;
        case 5:
        case 10: {
          const mean =
            (values[at]! + values[at + 1]! + values[at + columns]! + values[at + columns + 1]!) / 4;
          if (mean <= level === (inside === 5)) {
            link(south, east);
            link(north, west);
          } else {
            link(south, west);
            link(north, east);
          }
          break;
        }
      }
    }
  }
  return chains(next).map((chain) => chain.map((edge) => crossing(grid, values, level, edge)));
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
