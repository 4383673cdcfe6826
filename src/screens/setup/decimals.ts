import type { Line } from "../fields/table.ts";

/** Digits behind the point of a number as it stands in a cell: 1 of "6.2", none of "8" or "0:09". */
function places(shown: string): number {
  return /^[−-]?[\d\u202f\u2009 ]+\.(\d+)$/.exec(shown)?.[1]?.length ?? 0;
}

/** The most digits behind a point in each column of cells. */
export function decimalsOf(lines: readonly Line[], columns: number): readonly number[] {
  const most = new Array<number>(columns).fill(0);
  for (const { cells } of lines)
    for (const [i, cell] of cells.entries()) if (cell) most[i] = Math.max(most[i] ?? 0, places(cell.shown));
  return most;
}

/**
 * What takes the room after a number that has fewer digits behind its point than its column, so that points stand under each other; empty
 * where it needs none. It is there unseen: a digit in sight would claim an exactness that nobody gave.
 */
export function roomAfter(shown: string, most: number): string {
  const has = places(shown);
  if (has >= most || !/\d$/.test(shown)) return "";
  return `${has === 0 ? "." : ""}${"0".repeat(most - has)}`;
}
