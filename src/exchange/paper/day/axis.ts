import { clock, utcClock, utcDay } from "../../../words/index.ts";
import { LANDSCAPE_LEFT, LANE_LEFT } from "./frame.ts";
import { line, type LinesMark, type Mark, text } from "../page.ts";
import { textWidth } from "../type.ts";

/** Time along a sheet: from one moment at `left` to another at `left + wide`. */
export interface Axis {
  readonly fromS: number;
  readonly toS: number;
  readonly left: number;
  readonly wide: number;
}

/** Where a moment stands, mm; moments outside stand at the nearest end. */
export function xOf(axis: Axis, atS: number): number {
  const share = axis.toS > axis.fromS ? (atS - axis.fromS) / (axis.toS - axis.fromS) : 0;
  return axis.left + axis.wide * Math.min(1, Math.max(0, share));
}

/** Height of the two rulers together. */
export const RULERS_MM = 8.4;

const STEPS_S = [300, 600, 900, 1800, 3600, 7200, 10_800, 21_600, 43_200, 86_400];
const FACE = { sizePt: 7, bold: false };

/**
 * The MET ruler and the UTC ruler under it, top at `y`, with hair lines down to `bottom` at each MET tick. The UTC ruler is bare where
 * nobody has said when the lander touches down.
 */
export function rulers(axis: Axis, epochMs: number | null, y: number, bottom: number): Mark[] {
  const step = stepOf(axis);
  const met = ticks(axis, step, 0);
  const grid: LinesMark = {
    kind: "lines",
    segments: met.map((atS) => [xOf(axis, atS), y + RULERS_MM, xOf(axis, atS), bottom] as const),
    widthMm: 0.1,
    ink: 0.55,
  };
  return [
    ...(met.length > 0 ? [grid] : []),
    ...ruler(axis, "MET", y, met, clock),
    ...ruler(
      axis,
      "UTC",
      y + RULERS_MM / 2,
      epochMs === null ? [] : ticks(axis, step, epochMs / 1000),
      (atS) => (utcClock(epochMs, atS) === "00:00" ? utcDay(epochMs, atS) : utcClock(epochMs, atS)),
    ),
  ];
}

function ruler(
  axis: Axis,
  name: string,
  y: number,
  at: readonly number[],
  words: (atS: number) => string,
): Mark[] {
  const base = y + RULERS_MM / 2;
  const marks: Mark[] = [
    ...text(LANDSCAPE_LEFT, base - 1, name, { sizePt: 7, bold: true }),
    line(LANE_LEFT, base, axis.left + axis.wide, base, 0.2),
  ];
  for (const atS of at) {
    const x = xOf(axis, atS);
    const wide = textWidth(words(atS), FACE);
    marks.push(line(x, base - 1.2, x, base, 0.2));
    if (x + 0.6 + wide <= axis.left + axis.wide) marks.push(...text(x + 0.6, base - 1, words(atS), FACE));
  }
  return marks;
}

/** The smallest round step that leaves its labels room; doubled on for stays of many days. */
function stepOf(axis: Axis): number {
  const perMm = (axis.toS - axis.fromS) / axis.wide;
  const fits = STEPS_S.find((step) => step / perMm >= 13);
  let step = fits ?? 86_400;
  while (step / perMm < 13) step *= 2;
  return step;
}

/** Moments inside the axis that are whole steps on a clock running `aheadS` before MET. */
function ticks(axis: Axis, step: number, aheadS: number): number[] {
  const list: number[] = [];
  const first = Math.ceil((axis.fromS + aheadS) / step) * step - aheadS;
  for (let atS = first; atS <= axis.toS; atS += step) list.push(atS);
  return list;
}
