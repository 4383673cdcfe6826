import { done, failed, type Outcome } from "../../kernel/index.ts";
import { openAsciiGrid } from "./asciigrid.ts";
import { type GivenFile, withBeside } from "./beside.ts";
import { openGeoTiff } from "./geotiff.ts";
import type { HeightSource } from "./source.ts";

export { heightsAmong } from "./beside.ts";
export type { GivenFile } from "./beside.ts";
export { layingOf } from "./laying.ts";
export type { HeightAnswers, HeightQuestion, SiteOnBody } from "./placing.ts";
export type { HeightSource } from "./source.ts";
export { takeHeights } from "./taking.ts";
export { layingWords, takenWords } from "./takenwords.ts";

/**
 * The heights in a file, whatever it is called (a GeoTIFF by its first bytes, else an ASCII grid), with what the files say that lie
 * beside it and are given with it.
 */
export async function openHeights(
  name: string,
  bytes: ArrayBuffer,
  beside: readonly GivenFile[] = [],
): Promise<Outcome<HeightSource, string>> {
  const text = isTiff(bytes) ? null : new TextDecoder().decode(bytes);
  if (text?.trim() === "") return failed("it is empty");
  const opened = text === null ? await openGeoTiff(name, bytes) : openAsciiGrid(name, text);
  return opened.ok ? done(await withBeside(opened.value, beside)) : opened;
}

/** TIFF files begin with II or MM and 42 (43 for large ones) in that byte order. */
function isTiff(bytes: ArrayBuffer): boolean {
  const [a, b, c, d] = new Uint8Array(bytes.slice(0, 4));
  const version = a === 0x49 && b === 0x49 ? c : a === 0x4d && b === 0x4d ? d : null;
  return version === 42 || version === 43;
}
