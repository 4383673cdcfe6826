import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { PlanGround } from "../../plan/index.ts";
import { groundOf, type Raster, type RasterWish } from "./raster.ts";

/**
 * ESRI ASCII grid, read and written: a head of `ncols`, `nrows`, `xllcorner` or `xllcenter`, `yllcorner` or
 * `yllcenter`, `cellsize` and perhaps `nodata_value`, then heights in metres row by row from the north, apart by
 * white space. Heights stand in the middle of their cells. (As its maker publishes it.)
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

/** The heights of the text as the plan's ground, or what is wrong with it in words. */
export function readAsciiGrid(text: string, wish: RasterWish = {}): Outcome<PlanGround, string> {
  const raster = rasterOf(text);
  return raster.ok ? groundOf(raster.value, wish) : raster;
}

function rasterOf(text: string): Outcome<Raster, string> {
  const words = text.trim().split(/\s+/);
  const head = new Map<string, number>();
  let at = 0;
  while (at + 1 < words.length && HEADS.includes(words[at]!.toLowerCase())) {
    const value = Number(words[at + 1]);
    if (!Number.isFinite(value)) return failed(`${words[at]} must be a number, found "${words[at + 1]}"`);
    head.set(words[at]!.toLowerCase(), value);
    at += 2;
  }
  const columns = head.get("ncols");
  const rows = head.get("nrows");
  const cellM = head.get("cellsize");
  if (columns === undefined || rows === undefined || cellM === undefined)
    return failed("ncols, nrows and cellsize must stand at its head");
  if (!(Number.isInteger(columns) && Number.isInteger(rows) && columns > 0 && rows > 0 && cellM > 0))
    return failed("ncols and nrows must be whole numbers above 0, cellsize above 0");
  const west = head.get("xllcenter") ?? add(head.get("xllcorner"), cellM / 2);
  const south = head.get("yllcenter") ?? add(head.get("yllcorner"), cellM / 2);
  if (west === undefined || south === undefined)
    return failed("xllcorner or xllcenter, and yllcorner or yllcenter must stand at its head");
  if (words.length - at !== columns * rows)
    return failed(`${columns * rows} heights are announced, ${words.length - at} are there`);
  const unknown = head.get("nodata_value") ?? -9999;
  const heightM = new Float64Array(columns * rows);
  for (let k = 0; k < heightM.length; k += 1) {
    const value = Number(words[at + k]);
    if (!Number.isFinite(value)) return failed(`height ${k + 1} must be a number, found "${words[at + k]}"`);
    heightM[k] = value === unknown ? NaN : value;
  }
  return done({ columns, rows, cellM, westX: west, northY: south + (rows - 1) * cellM, heightM });
}

function add(value: number | undefined, more: number): number | undefined {
  return value === undefined ? undefined : value + more;
}

/** Heights as they lie in memory: row by row from the south. */
export interface Heights {
  readonly columns: number;
  readonly rows: number;
  readonly cellM: number;
  readonly westM: number;
  readonly southM: number;
  readonly heightM: ArrayLike<number>;
}

/** An ESRI ASCII grid of `heights` to the millimetre, coordinates from the lander. */
export function asciiGrid({ columns, rows, cellM, westM, southM, heightM }: Heights): string {
  const lines = [
    `ncols ${columns}`,
    `nrows ${rows}`,
    `xllcenter ${westM}`,
    `yllcenter ${southM}`,
    `cellsize ${cellM}`,
    "nodata_value -99999",
  ];
  for (let row = rows - 1; row >= 0; row -= 1) {
    const line: string[] = [];
    for (let column = 0; column < columns; column += 1) {
      const height = heightM[row * columns + column]!;
      line.push(Number.isNaN(height) ? "-99999" : String(Math.round(height * 1000) / 1000 + 0));
    }
    lines.push(line.join(" "));
  }
  return `${lines.join("\n")}\n`;
}
