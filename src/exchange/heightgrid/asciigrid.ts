import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { Cut, HeightSource } from "./source.ts";

/**
 * ESRI ASCII grid, read and written: a head of `ncols`, `nrows`, `xllcorner` or `xllcenter`, `yllcorner` or
 * `yllcenter`, `cellsize` and perhaps `nodata_value`, then heights row by row, the first row with the greatest y, apart by
 * white space. Heights stand in the middle of their cells. (As its maker publishes it.) It says neither the unit of its
 * heights, nor what its coordinates are, nor where north is.
 */

const HEADS = [
  "ncols",
  "nrows",
  "xllcorner",
  "xllcenter",
  "yllcorner",
  "yllcenter",
  "cellsize",
  "nodata_value",
];

/** The grid in the text, or what is wrong with it in words. */
export function openAsciiGrid(name: string, text: string): Outcome<HeightSource, string> {
  const words = text.trim().split(/\s+/);
  const read = headOf(words);
  if (typeof read === "string") return failed(read);
  const { head, at } = read;
  const columns = head.get("ncols");
  const rows = head.get("nrows");
  const cell = head.get("cellsize");
  if (columns === undefined || rows === undefined || cell === undefined)
    return failed("ncols, nrows and cellsize must stand at its head");
  if (!(Number.isInteger(columns) && Number.isInteger(rows) && columns > 0 && rows > 0 && cell > 0))
    return failed("ncols and nrows must be whole numbers above 0, cellsize above 0");
  const west = head.get("xllcenter") ?? add(head.get("xllcorner"), cell / 2);
  const south = head.get("yllcenter") ?? add(head.get("yllcorner"), cell / 2);
  if (west === undefined || south === undefined)
    return failed("xllcorner or xllcenter, and yllcorner or yllcenter must stand at its head");
  if (words.length - at !== columns * rows)
    return failed(`${columns * rows} heights are announced, ${words.length - at} are there`);
  const heights = heightsOf(words.slice(at), head.get("nodata_value") ?? -9999);
  if (typeof heights === "string") return failed(heights);
  return done({
    name,
    columns,
    rows,
    net: { x0: west, xByColumn: cell, xByRow: 0, y0: south + (rows - 1) * cell, yByColumn: 0, yByRow: -cell },
    projection: null,
    projectionWords: "no reference system",
    metresPerCoordinate: 1,
    metresPerHeight: null,
    unitWords: "not said",
    notes: head.has("nodata_value") ? [] : ["It names no value for unknown heights: -9999 is taken for one."],
    read: (cut) => Promise.resolve(part(heights, columns, cut)),
  });
}

/** Heads that say the same thing each in its way. */
const EITHER = [
  ["xllcorner", "xllcenter"],
  ["yllcorner", "yllcenter"],
] as const;

/** The numbers at the head and how many words they take, or what is wrong with one. */
function headOf(
  words: readonly string[],
): { readonly head: ReadonlyMap<string, number>; readonly at: number } | string {
  const head = new Map<string, number>();
  let at = 0;
  while (at + 1 < words.length && HEADS.includes(words[at]!.toLowerCase())) {
    const [name, word] = [words[at]!.toLowerCase(), words[at + 1]!];
    const value = Number(word);
    // What is no number stands for unknown in any case, where the head says so too.
    const isNaming = name === "nodata_value" && word.toLowerCase() === "nan";
    if (!Number.isFinite(value) && !isNaming) return `${words[at]} must be a number, found "${word}"`;
    if (head.has(name)) return `${name} stands twice at its head`;
    head.set(name, value);
    at += 2;
  }
  const both = EITHER.find((pair) => pair.every((name) => head.has(name)));
  return both ? `${both.join(" and ")} both stand at its head, and only one can be meant` : { head, at };
}

/** The heights that the words say, NaN for unknown, or what is wrong with one. */
function heightsOf(words: readonly string[], unknown: number): Float64Array | string {
  const heights = new Float64Array(words.length);
  for (const [k, word] of words.entries()) {
    const value = Number(word);
    if (Number.isNaN(value) && word.toLowerCase() !== "nan")
      return `height ${k + 1} must be a number, found "${word}"`;
    heights[k] = isUnknown(value, unknown) ? NaN : value;
  }
  return heights;
}

/**
 * Whether a height is the value that stands for unknown: the same as it is, or after both were rounded to single
 * precision, as writers do with one and not with the other.
 */
export function isUnknown(value: number, unknown: number | null): boolean {
  if (!Number.isFinite(value)) return true;
  return unknown !== null && (value === unknown || Math.fround(value) === Math.fround(unknown));
}

function part(heights: Float64Array, columns: number, cut: Cut): Float64Array {
  const width = cut.lastColumn - cut.firstColumn + 1;
  const found = new Float64Array(width * (cut.lastRow - cut.firstRow + 1));
  for (let row = cut.firstRow; row <= cut.lastRow; row += 1)
    found.set(
      heights.subarray(row * columns + cut.firstColumn, row * columns + cut.lastColumn + 1),
      (row - cut.firstRow) * width,
    );
  return found;
}

function add(value: number | undefined, more: number): number | undefined {
  return value === undefined ? undefined : value + more;
}
