import { failed, type Outcome } from "../../kernel/index.ts";
import { openAsciiGrid } from "./asciigrid.ts";
import { openGeoTiff } from "./geotiff.ts";
import type { HeightSource } from "./source.ts";

export { asciiGrid } from "./asciigrid.ts";
export type { Heights } from "./asciigrid.ts";
export { layingOf } from "./laying.ts";
export type { Laying } from "./laying.ts";
export type { HeightAnswers, HeightQuestion, SiteOnBody } from "./placing.ts";
export type { HeightSource } from "./source.ts";
export { takeHeights } from "./taking.ts";
export type { HeightsTaken } from "./taking.ts";
export { layingWords, takenWords } from "./takenwords.ts";

/** The heights in a file, whatever it is called: a GeoTIFF by its first bytes, else an ASCII grid. */
export async function openHeights(name: string, bytes: ArrayBuffer): Promise<Outcome<HeightSource, string>> {
  if (isTiff(bytes)) return openGeoTiff(name, bytes);
  const text = new TextDecoder().decode(bytes);
  return text.trim() === "" ? failed("it is empty") : openAsciiGrid(name, text);
}

/** TIFF files begin with II or MM and 42 (43 for large ones) in that byte order. */
function isTiff(bytes: ArrayBuffer): boolean {
  const [a, b, c, d] = new Uint8Array(bytes.slice(0, 4));
  const version = a === 0x49 && b === 0x49 ? c : a === 0x4d && b === 0x4d ? d : null;
  return version === 42 || version === 43;
}
