import { done, failed, type Outcome } from "../../kernel/index.ts";
import { MOST_POINTS, type PlanGround } from "../../plan/index.ts";

/** Heights as a file has them: points on a square net in the file's own metres. */
export interface Raster {
  readonly columns: number;
  readonly rows: number;
  readonly cellM: number;
  /** Coordinates of the north-west point. */
  readonly westX: number;
  readonly northY: number;
  /** Row by row from the north, west to east, m; NaN where unknown. */
  readonly heightM: ArrayLike<number>;
}

/** Where on the file the lander stands and how much of it is wanted. */
export interface RasterWish {
  /** Lander in the file's coordinates, m; the middle of the file when left out. */
  readonly lander?: { readonly x: number; readonly y: number } | undefined;
  /** Points within this of the lander to the east and north are taken, m; all when left out. */
  readonly reachM?: number | undefined;
  readonly unit?: "mm" | "cm" | undefined;
  /** Words on where the heights come from. */
  readonly source?: string | undefined;
}

/** Columns and rows of a file that are wanted, ends included. */
export interface Cut {
  readonly firstColumn: number;
  readonly lastColumn: number;
  readonly firstRow: number;
  readonly lastRow: number;
}

type Net = Omit<Raster, "heightM">;

/** Where the lander stands in the file's coordinates. */
export function landerOn(net: Net, { lander }: RasterWish): { x: number; y: number } {
  return (
    lander ?? {
      x: net.westX + ((net.columns - 1) / 2) * net.cellM,
      y: net.northY - ((net.rows - 1) / 2) * net.cellM,
    }
  );
}

/** The part of the file that is wanted; a fault in words when it holds less than two by two points, or too many. */
export function cutOf(net: Net, wish: RasterWish): Outcome<Cut, string> {
  const lander = landerOn(net, wish);
  const reachM = wish.reachM ?? Infinity;
  const inside = (value: number, last: number): number => Math.min(last, Math.max(0, value));
  const x = (lander.x - net.westX) / net.cellM;
  const y = (net.northY - lander.y) / net.cellM;
  if (!(x >= 0 && y >= 0 && x <= net.columns - 1 && y <= net.rows - 1))
    return failed("the lander lies outside the heights of the file");
  const cells = reachM / net.cellM;
  const cut = {
    firstColumn: inside(Math.ceil(x - cells), net.columns - 1),
    lastColumn: inside(Math.floor(x + cells), net.columns - 1),
    firstRow: inside(Math.ceil(y - cells), net.rows - 1),
    lastRow: inside(Math.floor(y + cells), net.rows - 1),
  };
  const columns = cut.lastColumn - cut.firstColumn + 1;
  const rows = cut.lastRow - cut.firstRow + 1;
  if (columns < 2 || rows < 2) return failed("fewer than two by two heights are wanted");
  if (columns * rows > MOST_POINTS || columns > 4000 || rows > 4000)
    return failed(
      `${columns} by ${rows} heights are too many: at most ${MOST_POINTS}, 4000 a side; take less of the ground`,
    );
  return done(cut);
}

/** The wanted part of `raster` as the plan's ground, heights rounded to the unit. */
export function groundOf(raster: Raster, wish: RasterWish): Outcome<PlanGround, string> {
  const found = cutOf(raster, wish);
  if (!found.ok) return found;
  const { firstColumn, lastColumn, firstRow, lastRow } = found.value;
  const lander = landerOn(raster, wish);
  const unit = wish.unit ?? "cm";
  const perMetre = unit === "mm" ? 1000 : 100;
  const heights: string[] = [];
  for (let row = firstRow; row <= lastRow; row += 1) {
    const line: string[] = [];
    for (let column = firstColumn; column <= lastColumn; column += 1) {
      const height = Math.round(raster.heightM[row * raster.columns + column]! * perMetre);
      if (Math.abs(height) > 999_999_999) return failed(`a height of ${height / perMetre} m is out of range`);
      // Adding 0 makes a negative zero plain.
      line.push(Number.isNaN(height) ? "x" : String(height + 0));
    }
    heights.push(line.join(" "));
  }
  return done({
    type: "grid",
    westM: centimetres(raster.westX + firstColumn * raster.cellM - lander.x),
    southM: centimetres(raster.northY - lastRow * raster.cellM - lander.y),
    cellM: raster.cellM,
    columns: lastColumn - firstColumn + 1,
    rows: lastRow - firstRow + 1,
    detour: 1.05,
    aim: "time",
    unit,
    heights,
    source: wish.source ?? "",
  });
}

function centimetres(metres: number): number {
  return Math.round(metres * 100) / 100;
}
