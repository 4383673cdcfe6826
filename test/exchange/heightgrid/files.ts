import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { openHeights } from "../../../src/exchange/index.ts";
import type { HeightSource } from "../../../src/exchange/heightgrid/source.ts";

/**
 * Files of heights made with GDAL 3.6.2 from `base.asc`: 24 columns and 20 rows, row 0 the first, heights
 * `1000 + 3 c - 2 r + 40 exp(-((c-6)^2 + (r-5)^2) / 8) - 25 exp(-((c-17)^2 + (r-13)^2) / 10)` to two decimals, unknown
 * (-3.4028234663852886e+38) at (c, r) = (20, 3), (21, 3), (2, 17). With
 *
 *     P="+proj=stere +lat_0=-90 +lon_0=0 +k=1 +x_0=0 +y_0=0 +R=1737400 +units=m +no_defs"
 *     U="-a_ullr 20760 37160 21720 36360"
 *
 * and units of bands set by `<UnitType>` in a VRT between two gdal_translate:
 *
 * - polar.tif: `gdal_translate -ot Float32 -a_srs "$P" $U base.asc`, unit m
 * - south-up.tif: polar.tif with the GeoTransform `20760, 40, 0, 36360, 0, 40` in a VRT, gdal_translate
 * - turned.tif: polar.tif with `20640, 36.2523, 16.9047, 36950, 16.9047, -36.2523`: 25 degrees
 * - equirect-km.tif: `gdal_translate -ot Int16 -a_nodata -32768 -scale 900 1100 0 20000 -a_scale 0.00001 -a_offset 1
 *   -a_srs "+proj=eqc +lat_ts=30 +lon_0=0 +R=1737400 +units=m +no_defs" -a_ullr 314879.5 1031293.9 315359.5 1030693.9`,
 *   unit km: cells of 20 by 30 m
 * - feet.tif: as polar.tif with `-a_nodata none` and a VERT_CS in US survey feet (register number 9003) about `$P`
 * - alpha-band.tif: heights of polar.tif without no-data value, second band 0 at c 4..7, r 9..11, else 255;
 *   `gdal_translate -colorinterp_2 alpha -a_nodata none`
 * - masked.tif: the same with `--config GDAL_TIFF_INTERNAL_MASK YES -b 1 -mask 2`
 * - degrees.tif: `gdal_translate -ot Float32 -a_srs "+proj=longlat +R=1737400 +no_defs" -a_ullr 11.99 34.01 12.014 33.99`
 * - bare.tif: `gdal_translate -ot Float32 -a_ullr 0 800 960 0 base.asc`: no reference system, no unit
 *
 * all with `-co COMPRESS=DEFLATE`.
 */
export async function opened(name: string): Promise<HeightSource> {
  const bytes = readFileSync(fileURLToPath(new URL(`files/${name}.tif`, import.meta.url)));
  const found = await openHeights(
    `${name}.tif`,
    bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length),
  );
  if (!found.ok) throw new Error(found.error);
  return found.value;
}

export const POLE = { latDeg: -88.6, lonDeg: 30, radiusM: 1_737_400 };
export const MARE = { latDeg: 34, lonDeg: 12, radiusM: 1_737_400 };
