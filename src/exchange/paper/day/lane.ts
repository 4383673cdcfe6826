import type { Rest, Stretch } from "../../../answers/index.ts";
import { clock, minutes } from "../../../words/index.ts";
import { hatch } from "../hatch.ts";
import { line, type Mark, rect, text } from "../page.ts";
import { CAP, linesHeight, MM_PER_PT, textWidth, wrap } from "../type.ts";
import { setLines } from "../cuff.ts";
import { type Axis, xOf } from "./axis.ts";

/** A task in a lane of the magnified EVA. */
export interface LaneTask {
  readonly number: string;
  readonly name: string;
  readonly startS: number;
  readonly endS: number;
  readonly must: boolean;
  readonly shared: boolean;
}

/** A task as it stands in its box. */
function wordsOf({ number, name }: LaneTask): string {
  return `${number} ${name}`;
}

const NAME_SIZES = [8.5, 8, 7.5, 7, 6.5, 6];

/** The size in which a task's number and name stand inside its box without breaking a word; null when it does not. */
export function nameSize(axis: Axis, high: number, task: LaneTask): number | null {
  const wide = xOf(axis, task.endS) - xOf(axis, task.startS) - 1.4;
  const room = high - 4.2;
  for (const sizePt of NAME_SIZES) {
    const face = { sizePt, bold: task.must };
    const words = wordsOf(task);
    const broken = words.split(/\s+/u).some((word) => textWidth(wrap(word, 1e6, face)[0]!, face) > wide);
    if (!broken && linesHeight(wrap(words, wide, face).length, sizePt) <= room) return sizePt;
  }
  return null;
}

/** Walking, waiting and airlock work of an outing behind its tasks. */
export function laneGround(axis: Axis, y: number, high: number, stretches: readonly Stretch[]): Mark[] {
  return stretches.flatMap(({ kind, span }) => {
    const x = xOf(axis, span.startS);
    const wide = xOf(axis, span.endS) - x;
    if (wide <= 0) return [];
    const middle = y + high / 2;
    if (kind === "wait") return [line(x, middle, x + wide, middle, 0.12)];
    if (kind === "traverse") return traverse(x, middle, wide, minutes(span.endS - span.startS, "up"));
    if (kind === "egress" || kind === "ingress") {
      return [
        rect(x, y, wide, high, 0.25, 1),
        hatch(x, y, wide, high, 1.6, 0.12, kind === "egress" ? "up" : "down"),
        ...plate(x + wide / 2, middle, kind, wide),
      ];
    }
    return [];
  });
}

/**
 * A rest that the work limit needs: the waiting it takes, in brackets, with its minutes where they fit. What is drawn is
 * the end of a pause; before it there may be more waiting.
 */
export function laneRest(axis: Axis, y: number, high: number, { needS, span }: Rest): Mark[] {
  const x = xOf(axis, span.endS - needS);
  const right = xOf(axis, span.endS);
  const middle = y + high / 2;
  const [top, bottom] = [middle - 2.6, middle + 2.6];
  const foot = Math.min(0.9, (right - x) / 3);
  return [
    {
      kind: "lines",
      segments: [
        [x + foot, top, x, top],
        [x, top, x, bottom],
        [x, bottom, x + foot, bottom],
        [right - foot, top, right, top],
        [right, top, right, bottom],
        [right, bottom, right - foot, bottom],
      ],
      widthMm: 0.35,
      ink: 0,
    },
    ...plate((x + right) / 2, middle, restWord(needS, right - x), right - x),
  ];
}

/** "rest 10 min" where there is room for it, else "rest". */
function restWord(needS: number, room: number): string {
  const words = `rest ${minutes(needS, "given")}`;
  return textWidth(words, PLATE) + 1.2 <= room ? words : "rest";
}

function traverse(x: number, middle: number, wide: number, words: string): Mark[] {
  const face = { sizePt: 6.5, bold: false };
  const fits = textWidth(words, face) <= wide - 0.6;
  return [
    hatch(x, middle - 1, wide, 2, 1, 0.25),
    line(x, middle - 1, x + wide, middle - 1, 0.2),
    line(x, middle + 1, x + wide, middle + 1, 0.2),
    ...(fits ? text(x + wide / 2, middle - 1.7, words, { ...face, align: "centre" }) : []),
  ];
}

const PLATE = { sizePt: 7, bold: false };

/** A word on a white plate, left out where it does not fit. */
export function plate(x: number, middle: number, word: string, room: number): Mark[] {
  const face = PLATE;
  const wide = textWidth(word, face);
  if (wide + 1.2 > room) return [];
  return [
    rect(x - wide / 2 - 0.5, middle - 1.5, wide + 1, 3, 0, 1),
    ...text(x, middle + 0.9, word, { ...face, align: "centre" }),
  ];
}

/** A task's box: start on top, number and name below; only its number where the name does not fit. */
export function laneTask(axis: Axis, y: number, high: number, task: LaneTask): Mark[] {
  const x = xOf(axis, task.startS);
  const wide = Math.max(0.6, xOf(axis, task.endS) - x);
  const sizePt = nameSize(axis, high, task);
  const startFace = { sizePt: 7, bold: true };
  const start = clock(task.startS);
  const startFits = textWidth(start, startFace) <= wide - 1;
  return [
    rect(x, y, wide, high, task.shared ? 0.7 : 0.3, 1),
    ...(startFits ? text(x + 0.7, y + 3, start, startFace) : []),
    ...(sizePt === null
      ? numberIn(x, y, wide, high, task.number)
      : setLines(wrap(wordsOf(task), wide - 1.4, { sizePt, bold: task.must }), x + 0.7, y + 3.6, {
          sizePt,
          bold: task.must,
        })),
  ];
}

function numberIn(x: number, y: number, wide: number, high: number, words: string): Mark[] {
  const sizePt = [9, 8, 7, 6, 5].find((size) => textWidth(words, { sizePt: size, bold: true }) <= wide - 0.4);
  if (sizePt === undefined) return [];
  const baseline = y + high / 2 + 1 + (CAP * sizePt * MM_PER_PT) / 2;
  return text(x + wide / 2, baseline, words, { sizePt, bold: true, align: "centre" });
}
