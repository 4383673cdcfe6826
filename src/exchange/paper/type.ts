import { ADVANCES, SIGNS } from "./faces/advances.ts";
import { FACE_NAMES, type FaceName } from "./faces/files.ts";
import { BOX, JOINING, printable, unbroken } from "./glyphs.ts";

/**
 * Measuring and breaking text. Widths are those of the faces' own files, without kerning and with figures as wide as each
 * other, which is how both renderers set them, so a line that fits here fits on paper. Sizes are points, widths and heights millimetres.
 */

/** Millimetres in a typographic point (1/72 inch). */
export const MM_PER_PT = 25.4 / 72;

/** Height of capitals, reach above the baseline (accents included) and below it, as shares of the size. */
export const CAP = 0.74;
export const RISE = 0.93;
export const DROP = 0.22;
/** Baseline to baseline, as a share of the size. */
const LEADING = 1.15;
/** Advance of BOX, as a share of the size. */
export const BOX_ADVANCE = 0.7;

export interface Face {
  readonly sizePt: number;
  readonly bold: boolean;
  /** Set in the narrower face: labels and other words where room is short. */
  readonly tight?: boolean;
}

/** The face's name among FACES. */
export function faceName({ bold, tight }: Pick<Face, "bold" | "tight">): FaceName {
  if (tight === true) return bold ? "tightBold" : "tight";
  return bold ? "bold" : "plain";
}

/** The advance of each sign in thousandths of the size, by face. */
const advances: ReadonlyMap<FaceName, ReadonlyMap<string, number>> = new Map(
  FACE_NAMES.map((name) => {
    const units = ADVANCES[name].split(" ").map(Number);
    return [name, new Map([...SIGNS.latin, ...SIGNS["latin-ext"]].map((sign, i) => [sign, units[i] ?? 0]))];
  }),
);

/** Width of `text` (as `printable` gives it) in `face`, mm. */
export function textWidth(text: string, face: Face): number {
  const name = faceName(face);
  let units = 0;
  for (const sign of text) units += advance(sign, name);
  return (units / 1000) * face.sizePt * MM_PER_PT;
}

/** Height of `count` lines in `sizePt`, mm. */
export function linesHeight(count: number, sizePt: number): number {
  return count * sizePt * LEADING * MM_PER_PT;
}

/** A blank that parts no number from its unit. */
const BLANK = / (?!(?<=\d )(?:mm|cm|m|km|kg|g|min|s|h|deg|C|V|W|N|L|%)(?![\w/]))/u;
/** And no number from the word that it follows. */
const LOOSE_BLANK = new RegExp(String.raw`${BLANK.source}(?!(?<=\p{L}\.? )[-\u2013]?\d)`, "u");

const plainly = (word: string): string => word.replaceAll(JOINING, " ");

/** What lines may be broken between: at spaces, but not between a number and its unit, nor between a number and the word that it follows. */
export function wordsIn(text: string): string[] {
  return unbroken(text).split(LOOSE_BLANK).map(plainly);
}

/** The same where no more than a width is to be had: a number is parted from its word rather than from its unit. */
function wordsWithin(text: string, widthMm: number, face: Face): string[] {
  return unbroken(text)
    .split(LOOSE_BLANK)
    .flatMap((word) => (textWidth(plainly(word), face) <= widthMm ? word : word.split(BLANK)))
    .map(plainly);
}

/**
 * `text` made printable and broken into lines no wider than `widthMm`, the first no wider than `firstMm`: at blanks, and inside a word
 * only where a word alone is wider. At least one line, possibly empty.
 */
export function wrap(text: string, widthMm: number, face: Face, firstMm = widthMm): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of wordsWithin(text, widthMm, face)) {
    const joined = line === "" ? word : `${line} ${word}`;
    const room = lines.length === 0 ? firstMm : widthMm;
    if (textWidth(joined, face) <= room) {
      line = joined;
      continue;
    }
    if (line !== "" || (lines.length === 0 && firstMm < widthMm)) lines.push(line);
    const pieces = chop(word, widthMm, face);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? "";
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

function advance(sign: string, name: FaceName): number {
  if (sign === BOX) return BOX_ADVANCE * 1000;
  return advances.get(name)?.get(sign) ?? 1000;
}
