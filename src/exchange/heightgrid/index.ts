export { asciiGrid, readAsciiGrid } from "./asciigrid.ts";
export type { Heights } from "./asciigrid.ts";
export { readGeoTiff } from "./geotiff.ts";
export type { RasterWish } from "./raster.ts";
