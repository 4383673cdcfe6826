import type { GeoTIFF, GeoTIFFImage } from "geotiff";
import { done, failed, type Outcome } from "../../kernel/index.ts";
import { digits } from "../../words/index.ts";
import { isUnknown } from "./asciigrid.ts";
import { type GeoKeys, metresOfUnit, projectionOf } from "./projection.ts";
import type { Cut, HeightSource, Net } from "./source.ts";

/**
 * Heights from a GeoTIFF (OGC 19-008r4): its first band. Turned, mirrored and oblong nets are read as the file has them;
 * a scale and offset of the band, its value for "no data", a transparency band and a mask inside the file are taken into
 * account, a mask in a file of its own by `beside`. Not read: nets by more tie points than one, geocentric coordinates.
 */

/** The heights in the file, or what is wrong with it in words. */
export async function openGeoTiff(name: string, file: ArrayBuffer): Promise<Outcome<HeightSource, string>> {
  // Fetched when asked for: nobody else needs the reader.
  const { fromArrayBuffer } = await import("geotiff");
  try {
    const tiff = await fromArrayBuffer(file);
    const image = await tiff.getImage(0);
    const photometric = image.fileDirectory.getValue("PhotometricInterpretation");
    if (typeof photometric === "number" && photometric > 1)
      return failed("its first image holds colours, not heights");
    const keys = (image.getGeoKeys() ?? {}) as GeoKeys;
    const net = netOf(image, keys);
    if (!net.ok) return net;
    const projection = projectionOf(keys);
    const about = await image.getGDALMetadata(0);
    const unit = unitOf(about?.["UNITTYPE"], keys);
    const scale = Number(about?.["SCALE"] ?? 1);
    const offset = Number(about?.["OFFSET"] ?? 0);
    if (!Number.isFinite(offset) || !Number.isFinite(scale) || scale === 0)
      return failed(
        "the scale or the offset of its heights is no number that heights can be worked out with",
      );
    const unknown = image.getGDALNoData();
    const columns = image.getWidth();
    const rows = image.getHeight();
    const mask = await maskOf(tiff, columns, rows);
    const alpha = alphaOf(image);
    const others = image.getSamplesPerPixel() - 1 - (alpha === null ? 0 : 1);
    return done({
      name,
      columns,
      rows,
      net: net.value,
      projection: projection.proj,
      projectionWords: projection.words,
      metresPerCoordinate: metresOfUnit(keys["ProjLinearUnitsGeoKey"] ?? 9001) ?? 1,
      metresPerHeight: unit.metres,
      unitWords: unit.words,
      notes: [
        ...(mask || alpha !== null ? ["Where its mask is transparent heights are unknown."] : []),
        ...(others > 0 ? [`Only the first of its ${others + 1} bands is taken.`] : []),
      ],
      async read(cut) {
        const bands = await bandsOf(image, cut, alpha === null ? [0] : [0, alpha]);
        const cover = mask ? (await bandsOf(mask, cut, [0]))[0] : bands[1];
        return Float64Array.from(bands[0]!, (value, k) =>
          isUnknown(value, unknown) || cover?.[k] === 0 ? NaN : value * scale + offset,
        );
      },
    });
  } catch (error) {
    return failed(
      `this is no GeoTIFF that can be read: ${error instanceof Error ? error.message : "unreadable"}`,
    );
  }
}

/** A mask in a file of its own: 0 where heights are unknown. In words what is wrong where it is none. */
export async function maskIn(file: ArrayBuffer): Promise<
  | {
      readonly columns: number;
      readonly rows: number;
      read(cut: Cut): Promise<ArrayLike<number>>;
    }
  | string
> {
  const { fromArrayBuffer } = await import("geotiff");
  try {
    const image = await (await fromArrayBuffer(file)).getImage(0);
    return {
      columns: image.getWidth(),
      rows: image.getHeight(),
      read: async (cut) => (await bandsOf(image, cut, [0]))[0]!,
    };
  } catch (error) {
    return `it is no TIFF that can be read (${error instanceof Error ? error.message : "unreadable"})`;
  }
}

/** Some bands of a part of an image, row by row. */
async function bandsOf(image: GeoTIFFImage, cut: Cut, samples: number[]): Promise<ArrayLike<number>[]> {
  const window = [cut.firstColumn, cut.firstRow, cut.lastColumn + 1, cut.lastRow + 1];
  return await image.readRasters({ window, samples });
}

const PIXEL_IS_POINT = 2;
/** Bit of NewSubfileType: a transparency mask for another image (TIFF 6.0, p. 36). */
const IS_MASK = 4;

/** The mask inside the file that is as large as the heights; null where there is none. */
async function maskOf(tiff: GeoTIFF, columns: number, rows: number): Promise<GeoTIFFImage | null> {
  const count = await tiff.getImageCount();
  for (let k = 1; k < count; k += 1) {
    const image = await tiff.getImage(k);
    const kind = image.fileDirectory.getValue("NewSubfileType");
    const isMask = typeof kind === "number" && (kind & IS_MASK) !== 0;
    if (isMask && image.getWidth() === columns && image.getHeight() === rows) return image;
  }
  return null;
}

/** The band that says how opaque each point is; null where there is none (ExtraSamples 1 or 2, TIFF 6.0, p. 31). */
function alphaOf(image: GeoTIFFImage): number | null {
  const extra = image.fileDirectory.getValue("ExtraSamples") as ArrayLike<number> | number | undefined;
  if (extra === undefined) return null;
  const list = typeof extra === "number" ? [extra] : Array.from(extra);
  const at = list.findIndex((one) => one === 1 || one === 2);
  return at < 0 ? null : image.getSamplesPerPixel() - list.length + at;
}

/** Words for metres, kilometres and feet as writers of bands put them. */
const UNITS: readonly (readonly [words: RegExp, metres: number])[] = [
  [/^(m|metres?|meters?)$/i, 1],
  [/^(km|kilomet(re|er)s?)$/i, 1000],
  [/^(cm|centimet(re|er)s?)$/i, 0.01],
  [/^(ft|foot|feet|international foot)$/i, 0.3048],
  [/^(us survey foot|us-ft|foot_us|ftus)$/i, 1200 / 3937],
];

function unitOf(band: unknown, keys: GeoKeys): { metres: number | null; words: string } {
  const unitWords = typeof band === "string" ? band.trim() : "";
  if (unitWords !== "") {
    const known = UNITS.find(([words]) => words.test(unitWords));
    return {
      metres: known?.[1] ?? null,
      words: known ? unitWords : `"${unitWords}", which is not known here`,
    };
  }
  const code = keys["VerticalUnitsGeoKey"];
  if (code === undefined) return { metres: null, words: "not said" };
  const metres = metresOfUnit(code);
  return metres === null
    ? { metres, words: `number ${JSON.stringify(code)}, which is not known here` }
    : { metres, words: metres === 1 ? "m" : `${digits(metres, 7)} m` };
}

function netOf(image: GeoTIFFImage, keys: GeoKeys): Outcome<Net, string> {
  const numbers = (tag: "ModelTransformation" | "ModelPixelScale" | "ModelTiepoint"): number[] => {
    const value = image.fileDirectory.getValue(tag) as ArrayLike<number> | undefined;
    return value === undefined ? [] : Array.from(value);
  };
  // Coordinates are those of a cell's corner or of its middle.
  const half = keys["GTRasterTypeGeoKey"] === PIXEL_IS_POINT ? 0 : 0.5;
  const matrix = numbers("ModelTransformation");
  const [stepX, stepY] = numbers("ModelPixelScale");
  const ties = numbers("ModelTiepoint");
  let corner: Net;
  if (matrix.length >= 8)
    corner = {
      ...{ x0: matrix[3]!, xByColumn: matrix[0]!, xByRow: matrix[1]! },
      ...{ y0: matrix[7]!, yByColumn: matrix[4]!, yByRow: matrix[5]! },
    };
  else if (stepX !== undefined && stepY !== undefined && ties.length >= 6) {
    if (ties.length > 6) return failed("it is laid by many tie points; warp it to a net first");
    const [i, j, , x, y] = ties as [number, number, number, number, number];
    corner = {
      ...{ x0: x - i * stepX, xByColumn: stepX, xByRow: 0 },
      ...{ y0: y + j * stepY, yByColumn: 0, yByRow: -stepY },
    };
  } else return failed("it does not say where its cells lie");
  const { x0, xByColumn, xByRow, y0, yByColumn, yByRow } = corner;
  if (!(Math.abs(xByColumn * yByRow - xByRow * yByColumn) > 0)) return failed("its cells have no size");
  return done({
    ...corner,
    x0: x0 + half * (xByColumn + xByRow),
    y0: y0 + half * (yByColumn + yByRow),
  });
}
