import type { Gauges } from "../../answers/index.ts";
import { LABEL_PT, LEFT, middleOf, RIGHT, THUMB_MM, WIDE } from "./cuff.ts";
import { dial } from "./dial.ts";
import { line, type Mark, rect, tagged, text } from "./page.ts";
import { printable } from "./glyphs.ts";
import { clip, type Face, fitSize, MM_PER_PT, textWidth, wrap, wrapAtMost } from "./type.ts";

/** The rows of a page that stand in the same place on every page that has them; the largest figures are those of now. */

/** Where they begin, and where what flows between them begins and ends, mm. */
export const ROWS = { head: 3.2, times: 13.2, home: 25.4, body: 37.7, next: 115.7, bottom: 126.6 } as const;

/** Height of the row of times and of the row of the way home, mm. */
const TIMES_MM = 11.7;
const HOME_MM = 11.7;

/** What stands at the head of a page: a number or a word in a frame, a name, and who. */
export interface Head {
  readonly number: string;
  readonly name: string;
  readonly who: string;
  readonly part: string;
}

/** Sizes of a name on one line, and where it needs two. */
const NAME_PT = [15.5, 15, 14.5, 14, 13.5, 13, 12.5];
const NAME_2_PT = [13, 12.5, 12, 11.5, LABEL_PT];

/** Whether a name stands whole in the head. */
export function fitsHead(head: Head): boolean {
  const { lines, sizePt } = nameLines(head);
  return lines.join(" ") === lines.join(" ").replace(/…$/, "") && sizePt >= LABEL_PT;
}

function frameWide({ number }: Head): number {
  return Math.max(11, textWidth(number, { sizePt: 19, bold: true }) + 2.6);
}

/** Who, as far as it has room: nothing of one's own booklet depends on the end of a long name. */
function whoIn({ who }: Head): string {
  return clip(who, 32, { sizePt: LABEL_PT, bold: true });
}

function nameLines(head: Head): { readonly lines: readonly string[]; readonly sizePt: number } {
  const who = { sizePt: LABEL_PT, bold: true };
  const beside = Math.max(textWidth(whoIn(head), who), textWidth(head.part, who));
  const wide = WIDE - frameWide(head) - beside - 4;
  const fits = (sizePt: number, most: number): boolean => {
    const lines = wrapAtMost(head.name, wide, { sizePt, bold: true, tight: true }, most);
    return (
      !lines.at(-1)?.endsWith("…") &&
      lines.every((one) => textWidth(one, { sizePt, bold: true, tight: true }) <= wide)
    );
  };
  const one = NAME_PT.find((sizePt) => fits(sizePt, 1));
  const sizePt = one ?? NAME_2_PT.find((size) => fits(size, 2)) ?? LABEL_PT;
  return {
    lines: wrapAtMost(head.name, wide, { sizePt, bold: true, tight: true }, one === undefined ? 2 : 1),
    sizePt,
  };
}

export function headRow(head: Head): Mark[] {
  const { lines, sizePt } = nameLines(head);
  const framed = frameWide(head);
  const who = { sizePt: LABEL_PT, bold: true, align: "right" } as const;
  const name = { sizePt, bold: true, tight: true };
  const lineMm = sizePt * MM_PER_PT * 1.08;
  const first = middleOf(ROWS.head, ROWS.head + 8.4, sizePt) - ((lines.length - 1) * lineMm) / 2;
  return [
    rect(LEFT + 0.35, ROWS.head + 0.35, framed, 7.7, 0.7),
    ...tagged(
      [
        ...text(LEFT + 0.35 + framed / 2, middleOf(ROWS.head, ROWS.head + 8.4, 19), head.number, {
          sizePt: 19,
          bold: true,
          align: "centre",
        }),
        ...lines.flatMap((words, i) => text(LEFT + framed + 2.4, first + i * lineMm, words, name)),
      ],
      { role: "H1" },
    ),
    ...tagged([
      ...text(RIGHT, ROWS.head + 3.5, whoIn(head), who),
      ...text(RIGHT, ROWS.head + 7.6, head.part, who),
    ]),
    line(LEFT, 12.2, RIGHT, 12.2, 0.8),
  ];
}

/** A moment with a word over it, and a box for the minute at which it came to be. */
export interface Moment {
  readonly label: string;
  readonly value: string;
  readonly heavy?: boolean;
}

const TIME_PT = [19, 18, 17, 16, 15, 14, 13, 12, LABEL_PT];
const BOX = { w: 6.8, h: 6.2 } as const;

/** Three moments, one beside the other; the heavy one is what must not be missed. */
export function timesRow(
  moments: readonly [Moment, Moment, Moment],
  boxes = true,
  top: number = ROWS.times,
): Mark[] {
  const gaps = 1;
  const narrow = (WIDE - 2 * gaps) / 3.12;
  const wides = [narrow, narrow, WIDE - 2 * gaps - 2 * narrow] as const;
  const room = (wide: number, value: string): number =>
    wide - 2.2 - (boxes && /\d/.test(value) ? BOX.w + 0.8 : 0);
  const sizePt = Math.min(
    ...moments.map(({ value }, k) => fitSize(value, room(wides[k] ?? narrow, value), true, TIME_PT, 1)),
  );
  let x: number = LEFT;
  return moments.flatMap(({ label, value, heavy = false }, k) => {
    const wide = wides[k] ?? narrow;
    const frame = heavy ? 0.9 : 0.5;
    const left = x;
    x += wide + gaps;
    const boxed = boxes && /\d/.test(value);
    const own = textWidth(value, { sizePt, bold: true });
    const start = left + (wide - own - (boxed ? BOX.w + 0.8 : 0)) / 2;
    const labelPt = fitSize(label, wide - 1.4, true, [LABEL_PT], 1);
    return [
      rect(left + frame / 2, top + frame / 2, wide - frame, TIMES_MM - frame, frame),
      ...tagged([
        ...text(left + wide / 2, top + 4.2, label, {
          sizePt: labelPt,
          bold: true,
          tight: true,
          align: "centre",
        }),
        ...text(start, middleOf(top + 4.5, top + 11.3, sizePt), value, { sizePt, bold: true }),
      ]),
      ...(boxed
        ? tagged([rect(start + own + 0.8, top + 4.8, BOX.w, BOX.h, 0.5)], {
            role: "Figure",
            says: `Box for the actual minute of ${label}`,
          })
        : []),
    ];
  });
}

/** The way home from a page's place. */
export interface HomeWay {
  /** Minutes in words, or why there are none. */
  readonly minutes: string;
  /** Bearing in words; empty where nobody has to walk or it is not known. */
  readonly bearing: string;
  /** Clockwise from one's shadow; null where no shadow shows it. */
  readonly shadowDeg: number | null;
  /** Null where there is none; then `why` says it. */
  readonly gauges: Gauges | null;
  readonly why: string;
}

export const GAUGES = [
  ["oxygen", "O2"],
  ["co2", "CO2"],
  ["water", "WATER"],
  ["battery", "BATT"],
] as const;

/** Left and right of what stands in a gauge's cell, so that it does not run into the lines or the figures of the next one, mm. */
const GAUGE_AIR_MM = 0.6;

/** Room that a gauge's label needs, and figures of two places at the least, mm. */
function gaugeMm(name: string): number {
  return Math.max(8.2, textWidth(name, { sizePt: LABEL_PT, bold: true, tight: true }) + 2 * GAUGE_AIR_MM);
}

/** Way and minutes home, and the least that each gauge may show. */
export function homeRow({ minutes, bearing, shadowDeg, gauges, why }: HomeWay): Mark[] {
  const top = ROWS.home;
  const bottom = top + HOME_MM;
  const gaugesMm = GAUGES.reduce((sum, [, name]) => sum + gaugeMm(name), 0);
  const start = RIGHT - 0.25 - gaugesMm;
  const dialMm = shadowDeg === null ? 1 : 9.6;
  const label = { sizePt: LABEL_PT, bold: true, tight: true };
  const wordsMm = textWidth("HOME IF", label) + 0.9;
  const [number = "", unit = ""] = /^\d/.test(minutes) ? minutes.split(" ") : [minutes];
  const room =
    start -
    wordsMm -
    LEFT -
    dialMm -
    1.2 -
    (unit === "" ? 0 : textWidth(unit, { sizePt: 12, bold: true }) + 0.8);
  const sizePt = fitSize(number, room, true, [20, 18, 16, 14, 13, 12, LABEL_PT], 1);
  const left = LEFT + dialMm;
  return [
    rect(LEFT + 0.25, top + 0.25, WIDE - 0.5, HOME_MM - 0.5, 0.5),
    ...(shadowDeg === null ? [] : dial(LEFT + 4.9, top + HOME_MM / 2, 4.2, shadowDeg)),
    ...tagged([
      ...text(left, top + 4.3, bearing === "" ? "HOME" : `HOME ${bearing}`, { ...label, bold: false }),
      ...text(left, bottom - 1.3, number, { sizePt, bold: true }),
      ...text(left + textWidth(number, { sizePt, bold: true }) + 0.8, bottom - 1.3, unit, {
        sizePt: 12,
        bold: true,
      }),
    ]),
    line(start - wordsMm, top, start - wordsMm, bottom, 0.5),
    ...(gauges === null
      ? tagged([
          ...text(start - wordsMm + 1.2, top + 4.9, "no HOME IF:", { sizePt: 13, bold: true }),
          ...text(start - wordsMm + 1.2, top + 9.9, why, {
            sizePt: fitSize(why, RIGHT - start + wordsMm - 2, true, [13, 12, LABEL_PT], 1),
            bold: true,
          }),
        ])
      : [
          ...tagged([
            ...text(start - wordsMm + 0.5, top + 4.9, "HOME IF", label),
            ...text(start - wordsMm + 0.5, top + 9.7, "under %", label),
          ]),
          ...gaugeCells(gauges, start, top, bottom),
        ]),
  ];
}

function gaugeCells(gauges: Gauges, start: number, top: number, bottom: number): Mark[] {
  let x = start;
  return GAUGES.flatMap(([key, name]) => {
    const wide = gaugeMm(name);
    const value = gauges[key] === null ? "none" : `${gauges[key]}`;
    const room = wide - 2 * GAUGE_AIR_MM;
    const sizePt = fitSize(value, room, true, [16, 15, 14, 13, 12, LABEL_PT, 10], 1);
    const middle = x + wide / 2;
    const left = x;
    x += wide;
    return [
      line(left, top, left, bottom, 0.5),
      ...tagged([
        ...text(middle, top + 4.3, name, { sizePt: LABEL_PT, bold: true, tight: true, align: "centre" }),
        ...text(middle, bottom - 1.4, value, { sizePt, bold: true, align: "centre" }),
      ]),
    ];
  });
}

/** Kept for the way there beside a long name: its bearing and distance, mm. */
const LEAST_HOW_MM = 34;

/** What comes next: over a heavy rule, a number and a name, and under them how to get there. */
export function nextRow(next: {
  readonly number: string;
  readonly name: string;
  readonly how: readonly string[];
}): Mark[] {
  const top = ROWS.next;
  const label = { sizePt: 11.5, bold: true, tight: true };
  const numberFace = { sizePt: 13.5, bold: true };
  const after = LEFT + textWidth("NEXT", label) + 1.4;
  const numberMm = next.number === "" ? 0 : textWidth(next.number, numberFace) + 2;
  const nameMm = RIGHT - after - numberMm - 1.4;
  const tight = { bold: true, tight: true };
  const namePt =
    [13.5, 13, 12.5, 12, 11.5, LABEL_PT].find(
      (sizePt) => textWidth(printable(next.name), { ...tight, sizePt }) <= nameMm,
    ) ?? LABEL_PT;
  const nameFace = { ...tight, sizePt: namePt };
  const [name = "", ...over] = wrap(next.name, nameMm, nameFace);
  // What has no room beside the number goes on before the way there.
  const rest = wrapAtMost(over.join(" "), WIDE - THUMB_MM - LEAST_HOW_MM, nameFace, 1)[0] ?? "";
  const howLeft = rest === "" ? LEFT : LEFT + textWidth(rest, nameFace) + 2.4;
  const how = howLine(next.how, RIGHT - THUMB_MM - howLeft);
  return [
    line(LEFT, top + 0.4, RIGHT, top + 0.4, 0.8),
    ...tagged([
      ...text(LEFT, top + 5.1, "NEXT", label),
      ...text(after + numberMm / 2, top + 5.1, next.number, { ...numberFace, align: "centre" }),
      ...text(after + numberMm + (numberMm > 0 ? 1.4 : 0), top + 5.1, name, nameFace),
      ...text(LEFT, top + 10.2, rest, nameFace),
    ]),
    ...(numberMm > 0 ? [rect(after, top + 1.1, numberMm, 5, 0.5)] : []),
    ...tagged(text(howLeft, top + 10.2, how.words, how.face)),
  ];
}

/** How to get there on one line: what the next page says again is left off where it has no room. */
function howLine(parts: readonly string[], room: number): { readonly words: string; readonly face: Face } {
  const faces: readonly Face[] = [
    { sizePt: 12.5, bold: false },
    { sizePt: 12.5, bold: false, tight: true },
    { sizePt: 11.5, bold: false, tight: true },
  ];
  for (let count = parts.length; ; count -= 1) {
    const words = parts.slice(0, count).join(", ");
    const face = faces.find((one) => textWidth(printable(words), one) <= room);
    if (face) return { words, face };
  }
}

/** The call to turn the page, with what is there. */
export function turnRow(what: string): Mark[] {
  const top = ROWS.next;
  const face = { sizePt: 13, bold: false };
  const sizePt = fitSize(what, WIDE - THUMB_MM - 10, false, [13, 12, LABEL_PT], 1);
  const end = LEFT + textWidth(what, { ...face, sizePt }) + 2;
  const y = top + 8.8;
  return [
    line(LEFT, top + 0.4, RIGHT, top + 0.4, 0.8),
    ...tagged([
      ...text(LEFT, top + 5.4, "TURN THE PAGE", { sizePt: 14, bold: true }),
      ...text(LEFT, top + 10.4, what, { ...face, sizePt }),
    ]),
    ...tagged(
      [
        line(end, y, end + 7, y, 1.3),
        line(end + 7.4, y, end + 4.6, y - 1.9, 1.3),
        line(end + 7.4, y, end + 4.6, y + 1.9, 1.3),
      ],
      { role: "Figure", says: "Arrow: the next page" },
    ),
  ];
}
