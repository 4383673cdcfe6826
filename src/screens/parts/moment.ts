import { utcDate } from "../../words/index.ts";

/** `28 Nov 2026 19:30 UTC`: a moment of the wall clock, milliseconds since 1970, to the minute that it lies in. */
export function momentWords(atMs: number): string {
  return `${utcDate(Math.floor(atMs / 60_000) * 60_000, 0)} UTC`;
}
