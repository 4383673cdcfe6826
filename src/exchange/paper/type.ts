import { Encodings, Font, FontNames } from "@pdf-lib/standard-fonts";
import { BOX, printable } from "./glyphs.ts";

/**
 * Measuring and breaking text. Widths are those of standard Helvetica without kerning, which is how both renderers
 * set it, so a line that fits here fits on paper. Sizes are points, widths and heights millimetres.
 */

/** Millimetres in a typographic point (1/72 inch). */
export const MM_PER_PT = 25.4 / 72;

/** Height of capitals, reach above the baseline (accents included) and below it, as shares of the size. */
export const CAP = 0.718;
export const RISE = 0.931;
export const DROP = 0.225;
/** Baseline to baseline, as a share of the size. */
export const LEADING = 1.18;
/** Advance of BOX, as a share of the size. */
export const BOX_ADVANCE = 0.7;

export interface Face {
  readonly sizePt: number;
  readonly bold: boolean;
}

const fonts = { plain: Font.load(FontNames.Helvetica), bold: Font.load(FontNames.HelveticaBold) };
const advances = { plain: new Map<string, number>(), bold: new Map<string, number>() };

/** Width of `text` (as `printable` gives it) in `face`, mm. */
export function textWidth(text: string, face: Face): number {
  let units = 0;
  for (const sign of text) units += advance(sign, face.bold ? "bold" : "plain");
  return (units / 1000) * face.sizePt * MM_PER_PT;
}

/** Height of `count` lines in `sizePt`, mm. */
export function linesHeight(count: number, sizePt: number): number {
  return count * sizePt * LEADING * MM_PER_PT;
}

/** What lines may be broken between: at spaces, but not between a number and its unit. */
function wordsIn(text: string): string[] {
  return printable(text).split(/ (?!(?<=\d )(?:mm|cm|m|km|kg|g|min|s|h|deg|C|V|W|N|L|%)(?![\w/]))/);
}

/**
 * `text` made printable and broken into lines no wider than `widthMm`: at blanks, and inside a word only where a
 * word alone is wider. At least one line, possibly empty.
 */
export function wrap(text: string, widthMm: number, face: Face): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of wordsIn(text)) {
    const joined = line === "" ? word : `${line} ${word}`;
    if (textWidth(joined, face) <= widthMm) {
      line = joined;
      continue;
    }
    if (line !== "") lines.push(line);
    const pieces = chop(word, widthMm, face);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1)!;
  }
  lines.push(line);
  return lines;
}

/**
 * The largest size from `sizesPt` (descending) in which `text` takes at most `mostLines` and no word is broken; the
 * last one if none does.
 */
export function fitSize(
  text: string,
  widthMm: number,
  bold: boolean,
  sizesPt: readonly number[],
  mostLines: number,
): number {
  const words = wordsIn(text);
  const fits = (sizePt: number): boolean =>
    words.every((word) => textWidth(word, { sizePt, bold }) <= widthMm) &&
    wrap(text, widthMm, { sizePt, bold }).length <= mostLines;
  return sizesPt.find(fits) ?? sizesPt.at(-1)!;
}

/** `text` on one line, its end replaced by an ellipsis where it is wider than `widthMm`. For running heads only. */
export function clip(text: string, widthMm: number, face: Face): string {
  const whole = printable(text);
  if (textWidth(whole, face) <= widthMm) return whole;
  const signs = [...whole];
  while (signs.length > 0 && textWidth(`${signs.join("")}…`, face) > widthMm) signs.pop();
  return `${signs.join("").trimEnd()}…`;
}

/** `text` wrapped on at most `most` lines, the end of the last replaced by an ellipsis where there is more. */
export function wrapAtMost(text: string, widthMm: number, face: Face, most: number): string[] {
  const lines = wrap(text, widthMm, face);
  if (lines.length <= most) return lines;
  return [...lines.slice(0, most - 1), clip(lines.slice(most - 1).join(" "), widthMm, face)];
}

function chop(word: string, widthMm: number, face: Face): string[] {
  const pieces: string[] = [];
  let piece = "";
  for (const sign of word) {
    if (piece !== "" && textWidth(piece + sign, face) > widthMm) {
      pieces.push(piece);
      piece = "";
    }
    piece += sign;
  }
  pieces.push(piece);
  return pieces;
}

function advance(sign: string, weight: "plain" | "bold"): number {
  if (sign === BOX) return BOX_ADVANCE * 1000;
  const known = advances[weight].get(sign);
  if (known !== undefined) return known;
  const { name } = Encodings.WinAnsi.encodeUnicodeCodePoint(sign.codePointAt(0)!);
  const units = fonts[weight].getWidthOfGlyph(name) ?? 1000;
  advances[weight].set(sign, units);
  return units;
}
