import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { PlanGround } from "../../plan/index.ts";
import { cutOf, groundOf, type Raster, type RasterWish } from "./raster.ts";

/**
 * Heights from a GeoTIFF (OGC 19-008r4): one band of heights in metres on a square net of a projected reference
 * system in metres. Degrees, other units than metres, turned or oblong cells are refused in words: the plan's ground
 * is a plane. A scale and offset of the band and its value for "no data" are taken into account.
 */

/** The heights of the file as the plan's ground, or what is wrong with it in words. */
export async function readGeoTiff(
  file: ArrayBuffer,
  wish: RasterWish = {},
): Promise<Outcome<PlanGround, string>> {
  // Fetched when asked for: nobody else needs the reader.
  const { fromArrayBuffer } = await import("geotiff");
  try {
    const tiff = await fromArrayBuffer(file);
    const image = await tiff.getImage();
    const net = netOf(image);
    if (!net.ok) return net;
    const cut = cutOf(net.value, wish);
    if (!cut.ok) return cut;
    const { firstColumn, lastColumn, firstRow, lastRow } = cut.value;
    const values = await image.readRasters({
      window: [firstColumn, firstRow, lastColumn + 1, lastRow + 1],
      samples: [0],
      interleave: true,
    });
    const about = await image.getGDALMetadata(0);
    const scale = Number(about?.["SCALE"] ?? 1);
    const offset = Number(about?.["OFFSET"] ?? 0);
    const unknown = image.getGDALNoData();
    const heightM = Float64Array.from(values as ArrayLike<number>, (value) =>
      value === unknown || !Number.isFinite(value) ? NaN : value * scale + offset,
    );
    const { cellM, westX, northY } = net.value;
    const part: Raster = {
      columns: lastColumn - firstColumn + 1,
      rows: lastRow - firstRow + 1,
      cellM,
      westX: westX + firstColumn * cellM,
      northY: northY - firstRow * cellM,
      heightM,
    };
    return groundOf(part, { ...wish, reachM: undefined, lander: wish.lander ?? middleOf(net.value) });
  } catch (error) {
    return failed(
      `this is no GeoTIFF that can be read: ${error instanceof Error ? error.message : "unreadable"}`,
    );
  }
}

/** What is asked of an image of the reader. */
interface Image {
  getWidth(): number;
  getHeight(): number;
  getOrigin(): readonly number[];
  getResolution(): readonly number[];
  getGeoKeys(): object | null;
}

const MODEL_GEOGRAPHIC = 2;
const UNIT_METRE = 9001;
const PIXEL_IS_POINT = 2;

function netOf(image: Image): Outcome<Omit<Raster, "heightM">, string> {
  const keys = (image.getGeoKeys() ?? {}) as Readonly<Record<string, unknown>>;
  if (keys["GTModelTypeGeoKey"] === MODEL_GEOGRAPHIC)
    return failed("its coordinates are degrees; project it to metres first");
  const unit = keys["ProjLinearUnitsGeoKey"];
  if (unit !== undefined && unit !== UNIT_METRE) return failed("its coordinates are not in metres");
  const [stepX = 0, stepY = 0] = image.getResolution();
  const [originX = NaN, originY = NaN] = image.getOrigin();
  if (!(stepX > 0 && stepY < 0))
    return failed("it is turned: rows must run east, the first one in the north");
  if (Math.abs(stepX + stepY) > 1e-6 * stepX)
    return failed(`its cells are oblong, ${stepX} by ${-stepY} m; resample it to square ones`);
  const shift = keys["GTRasterTypeGeoKey"] === PIXEL_IS_POINT ? 0 : 0.5;
  return done({
    columns: image.getWidth(),
    rows: image.getHeight(),
    cellM: stepX,
    westX: originX + shift * stepX,
    northY: originY - shift * stepX,
  });
}

function middleOf(net: Omit<Raster, "heightM">): { x: number; y: number } {
  return {
    x: net.westX + ((net.columns - 1) / 2) * net.cellM,
    y: net.northY - ((net.rows - 1) / 2) * net.cellM,
  };
}
