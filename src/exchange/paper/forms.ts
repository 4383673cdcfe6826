import { keysOf } from "../../kernel/index.ts";
import { type Blank, type Caution, classOf } from "../../plan/index.ts";
import { baselineOf, LABEL_PT, LEFT, middleOf, RIGHT, setLines, WIDE } from "./cuff.ts";
import type { Block } from "./flow.ts";
import { hatch } from "./hatch.ts";
import { printable } from "./glyphs.ts";
import { line, type Mark, rect, tagged, text } from "./page.ts";
import { itemLabel } from "./pieces.ts";
import { clip, type Face, fitSize, linesHeight, textWidth, wrap } from "./type.ts";

/** The forms in which the crew is told what to do: each a block, or as many as it needs where it is long. */

/** How forms are set: the size of what is read, and what is left between two of them. */
export interface Setting {
  readonly sizePt: number;
  readonly gapMm: number;
}

/** Between two forms where they are not set close, mm. */
const BETWEEN = 1;

/** A size as it is set where nothing presses. */
export function roomy(sizePt: number): Setting {
  return { sizePt, gapMm: BETWEEN };
}

/** As many lines as one form holds; what is longer goes on in a form of its own. */
const MOST_LINES = 8;

/** How a class of caution is set: told apart by word, frame and hatching, without colour. */
const CLASSES = {
  // May injure or kill.
  warning: { word: "WARNING", bold: true, frame: 1, bar: 4.4, gap: 2, stroke: 1 },
  // May lose equipment or data.
  caution: { word: "CAUTION", bold: false, frame: 0.5, bar: 2.6, gap: 1.8, stroke: 0.5 },
  // A condition to know.
  note: { word: "NOTE", bold: false, frame: 0, bar: 0.8, gap: 0, stroke: 0 },
} as const;

/**
 * What is read before a step or a task, kept with what it guards: what may injure first, and what is of one class in one form, each text on a line
 * of its own behind the word.
 */
export function cautionForms(cautions: readonly Caution[], setting: Setting): Block[] {
  return keysOf(CLASSES).flatMap((kind) => {
    const texts = cautions.filter((one) => classOf(one) === kind).map(({ text: words }) => words);
    return texts.length === 0 ? [] : cautionForm(kind, texts, setting);
  });
}

/** Texts of one class in one frame. */
export function cautionForm(
  kind: NonNullable<Caution["class"]>,
  texts: readonly string[],
  { sizePt, gapMm }: Setting,
): Block[] {
  const { word, bold, frame, bar, gap, stroke } = CLASSES[kind];
  const left = LEFT + frame + bar + 1.3;
  const label = { sizePt: sizePt - 0.5, bold: true, tight: true };
  const face = { sizePt, bold };
  const wordMm = textWidth(word, label) + 1.4;
  const wide = RIGHT - left - frame - 0.8;
  const lines = texts.flatMap((words) =>
    wrap(words, wide, face, wide - wordMm).map((content, i) => ({ content, x: i === 0 ? wordMm : 0 })),
  );
  return piecesOf(lines).map((piece, k) => {
    const inner = linesHeight(piece.length, sizePt) + 0.3;
    const high = inner + 2 * frame;
    return {
      height: high + gapMm,
      keep: true,
      draw: (y) => [
        ...(frame > 0 ? [rect(LEFT + frame / 2, y + frame / 2, WIDE - frame, high - frame, frame)] : []),
        ...(gap > 0
          ? [
              hatch(LEFT + frame, y + frame, bar, inner, gap, stroke),
              line(LEFT + frame + bar, y, LEFT + frame + bar, y + high, 0.5),
            ]
          : [line(LEFT + bar / 2, y, LEFT + bar / 2, y + high, bar)]),
        ...tagged([
          ...(k === 0 ? text(left, baselineOf(y + frame, sizePt), word, label) : []),
          ...piece.flatMap(({ content, x }, i) =>
            text(left + x, baselineOf(y + frame, sizePt) + linesHeight(i, sizePt), content, face),
          ),
        ]),
      ],
    };
  });
}

function piecesOf<T>(lines: readonly T[]): T[][] {
  const pieces: T[][] = [];
  for (let from = 0; from < lines.length; from += MOST_LINES)
    pieces.push(lines.slice(from, from + MOST_LINES));
  return pieces;
}

/** IF something is seen or read, THEN one action; `who` does it where that is not everybody. */
export function ifThenForm(
  when: string,
  what: string,
  who: string,
  setting: Setting,
  blank?: Blank,
): Block[] {
  const { sizePt, gapMm } = setting;
  const face = { sizePt, bold: false };
  const label = { sizePt: 12.5, bold: true };
  const [ifMm, thenMm] = [textWidth("IF", label) + 1.2, textWidth("THEN", label) + 1.2];
  const action = who === "" ? what : `${who}: ${what}`;
  const after = blank ? blankMm(blank, RULE_MM) + BESIDE_MM : 0;
  const half = ifMm + textWidth(when, face) + 2.4;
  const rest = thenMm + textWidth(action, face) + 2.4 + after;
  const high = linesHeight(1, sizePt) + 1.1;
  if (half + rest <= WIDE && wrap(when, WIDE, face).length === 1 && wrap(action, WIDE, face).length === 1)
    return [
      {
        height: high + gapMm,
        draw: (y) => [
          rect(LEFT + 0.25, y + 0.25, WIDE - 0.5, high - 0.5, 0.5),
          line(LEFT + half, y, LEFT + half, y + high, 0.5),
          ...tagged([
            ...text(LEFT + 1, baselineOf(y + 0.4, sizePt), "IF", label),
            ...text(LEFT + 1 + ifMm, baselineOf(y + 0.4, sizePt), when, face),
          ]),
          ...tagged([
            ...text(LEFT + half + 1, baselineOf(y + 0.4, sizePt), "THEN", label),
            ...text(LEFT + half + 1 + thenMm, baselineOf(y + 0.4, sizePt), action, face),
          ]),
          ...(blank ? drawBlank(blank, baselineOf(y + 0.4, sizePt), RIGHT - 1, RULE_MM) : []),
        ],
      },
    ];
  return [...cellUnder("IF", when, setting, true), ...cellUnder("THEN", action, setting, false, blank)];
}

/** IF something has gone wrong, THEN several steps: each in a cell of the same form, so that it reads as a whole. */
export function remedyForm(
  when: string,
  head: string,
  steps: readonly { readonly text: string; readonly blank: Blank | undefined }[],
  setting: Setting,
): Block[] {
  return [
    ...cellUnder("IF", when, setting, true),
    ...cellUnder("THEN", head, setting, steps.length > 0),
    ...steps.flatMap(({ text: what, blank }, k) =>
      cellUnder(`${"abcdefghijklmnopqrstuvwxyz"[k] ?? k + 1}`, what, setting, k < steps.length - 1, blank),
    ),
  ];
}

/** A word at the left and what it says beside it, framed; one over the other they make a form. */
function cellUnder(
  word: string,
  words: string,
  { sizePt, gapMm }: Setting,
  keep: boolean,
  blank?: Blank,
): Block[] {
  const left = LEFT + 14;
  const face = { sizePt, bold: false };
  const wide = RIGHT - left - 1.2;
  const { pieces, ruleMm } = withBlank(words, wide, face, blank);
  return pieces.map((piece, k) => {
    const high = linesHeight(piece.length, sizePt) + 1;
    const last = k === pieces.length - 1;
    const end = baselineOf(0.4, sizePt) + linesHeight(piece.length - 1, sizePt);
    return {
      height: high + (last && !keep ? gapMm : -0.5),
      keep: keep || !last,
      draw: (y) => [
        rect(LEFT + 0.25, y + 0.25, WIDE - 0.5, high - 0.5, 0.5),
        ...tagged([
          ...(k === 0 ? text(LEFT + 1, baselineOf(y + 0.4, sizePt), word, { sizePt: 12.5, bold: true }) : []),
          ...setLines(piece, left, y + 0.4, face),
        ]),
        ...(last && blank ? drawBlank(blank, y + end, RIGHT - 1, ruleMm) : []),
      ],
    };
  });
}

const OWN_LEFT = LEFT + 11.8;
/** A box to tick, to the middle of its lines; what it takes of a page's height, mm. */
const BOX_MM = 4.6;
const BOX_ROW_MM = 5.5;

/** A step of one's own: a box to tick, its number, what to do, and what is written down with it. */
export function ownStep(number: number, words: string, { sizePt, gapMm }: Setting, blank?: Blank): Block[] {
  const face = { sizePt, bold: false };
  const { pieces, ruleMm } = withBlank(words, RIGHT - OWN_LEFT, face, blank);
  return pieces.map((piece, k) => {
    const last = k === pieces.length - 1;
    const end = baselineOf(0, sizePt) + linesHeight(piece.length - 1, sizePt);
    return {
      height: Math.max(linesHeight(piece.length, sizePt), k === 0 ? BOX_ROW_MM : 0) + gapMm,
      keep: !last,
      step: number,
      draw: (y) => [
        ...(k === 0
          ? itemLabel([
              ...tagged([rect(LEFT + 0.3, y + 0.4, BOX_MM, BOX_MM, 0.6)], {
                role: "Figure",
                says: `Box to tick for step ${number}`,
              }),
              ...text(LEFT + 8.5, baselineOf(y, sizePt), `${number}`, {
                sizePt,
                bold: true,
                tight: number > 9,
                align: "centre",
              }),
            ])
          : []),
        ...setLines(piece, OWN_LEFT, y, face),
        ...(last && blank ? drawBlank(blank, y + end, RIGHT, ruleMm) : []),
      ],
    };
  });
}

/** Steps of a partner are smaller than one's own where there is room, and never smaller than a step may be, points. */
const PARTNER_PT = 13.5;

/** A step of somebody else, indented, no box: whose it is, in a frame, and the same number that it has on their paper. */
export function partnerStep(who: string, number: number, words: string, { sizePt, gapMm }: Setting): Block[] {
  const face = { sizePt: Math.min(sizePt, PARTNER_PT), bold: false };
  const tag = { sizePt: LABEL_PT, bold: true, tight: true };
  const whose = clip(who, 24, tag);
  const tagMm = textWidth(whose, tag) + 1.8;
  const numberMm = textWidth(`${number}`, { ...face, bold: true }) + 1.4;
  const wide = RIGHT - OWN_LEFT - tagMm - 1.2;
  const pieces = piecesOf(wrap(words, wide, face, wide - numberMm));
  return pieces.map((piece, k) => ({
    height: Math.max(linesHeight(piece.length, face.sizePt), 5.1) + gapMm,
    keep: k < pieces.length - 1,
    step: number,
    draw: (y) => [
      ...(k === 0 ? [rect(OWN_LEFT, y + 0.3, tagMm, 4.7, 0.5)] : []),
      ...(k === 0
        ? itemLabel([
            ...text(OWN_LEFT + tagMm / 2, middleOf(y + 0.3, y + 5, LABEL_PT), whose, {
              ...tag,
              align: "centre",
            }),
            ...text(OWN_LEFT + tagMm + 1.2, baselineOf(y, face.sizePt), `${number}`, {
              ...face,
              bold: true,
            }),
          ])
        : []),
      ...tagged(
        piece.flatMap((content, i) =>
          text(
            OWN_LEFT + tagMm + 1.2 + (k === 0 && i === 0 ? numberMm : 0),
            baselineOf(y, face.sizePt) + linesHeight(i, face.sizePt),
            content,
            face,
          ),
        ),
      ),
    ],
  }));
}

/** A rest that the work limit needs: where, and until when. */
export function restForm(words: string, until: string, { gapMm }: Setting): Block {
  const high = 7;
  const dash = (
    x1: number,
    y1: number,
    x2: number,
    y2: number,
  ): (readonly [number, number, number, number])[] => {
    const long = Math.hypot(x2 - x1, y2 - y1);
    const count = Math.max(1, Math.round(long / 3));
    return Array.from({ length: count }, (_, k) => {
      const at = (share: number): readonly [number, number] => [
        x1 + (x2 - x1) * share,
        y1 + (y2 - y1) * share,
      ];
      const [a, b] = [at(k / count), at((k + 0.6) / count)];
      return [a[0], a[1], b[0], b[1]] as const;
    });
  };
  const [l, r] = [LEFT + 0.3, RIGHT - 0.3];
  const untilFace = { sizePt: 17, bold: true };
  const untilMm = textWidth(until, untilFace) + 1;
  const label = { sizePt: 15, bold: true };
  const left = LEFT + 1.4 + textWidth("REST", label) + 1.6;
  const plain = { sizePt: 12.5, bold: false };
  const wide = RIGHT - 1 - untilMm - textWidth("until", plain) - 1.6 - left;
  const sizePt = fitSize(words, wide, false, [13, 12.5, 12, 11.5, LABEL_PT], 1);
  const lines = wrap(words, wide, { sizePt, bold: false });
  const tall = Math.max(high, linesHeight(lines.length, sizePt) + 1.6);
  return {
    height: tall + gapMm,
    draw: (y) => [
      {
        kind: "lines",
        widthMm: 0.6,
        ink: 0,
        segments: [
          ...dash(l, y + 0.3, r, y + 0.3),
          ...dash(l, y + tall - 0.3, r, y + tall - 0.3),
          ...dash(l, y + 0.3, l, y + tall - 0.3),
          ...dash(r, y + 0.3, r, y + tall - 0.3),
        ],
      },
      ...tagged([
        ...text(LEFT + 1.4, middleOf(y, y + tall, 15), "REST", label),
        ...setLines(lines, left, y + (tall - linesHeight(lines.length, sizePt)) / 2, { sizePt, bold: false }),
        ...text(RIGHT - 1 - untilMm - 0.8, middleOf(y, y + tall, 15), "until", { ...plain, align: "right" }),
        ...text(RIGHT - 1, middleOf(y, y + tall, 17), until, { ...untilFace, align: "right" }),
      ]),
    ],
  };
}

/** A word and what it says beside it. */
export type Fact = readonly [name: string, words: string];

const FACT_LABEL = { sizePt: 11.5, bold: true, tight: true } as const;
/** Between two facts on one line, and what goes on on the next one, mm. */
const FACT_GAP = 3;
const FACT_HANG = 4;

/** Facts in their order: each on lines of its own, or set close, one running on where the one before ends. */
export function factForms(facts: readonly Fact[], { gapMm }: Setting, sizePt = 12.5): Block[] {
  return gapMm < BETWEEN
    ? runIn(facts, sizePt)
    : facts.flatMap(([name, words]) => factForm(name, words, sizePt));
}

function runIn(facts: readonly Fact[], sizePt: number): Block[] {
  const face = { sizePt, bold: false, tight: true };
  const rows: ((baseline: number) => Mark[])[][] = [[]];
  let x: number = LEFT;
  const turn = (): void => {
    rows.push([]);
    x = LEFT;
  };
  for (const [name, words] of facts) {
    const label = clip(name, 24, FACT_LABEL);
    const labelMm = textWidth(label, FACT_LABEL) + 1.4;
    const broken = (): string[] => wrap(words, WIDE - FACT_HANG, face, RIGHT - x - labelMm);
    // A label does not stand without what it labels, and no fact is broken that fits on a line.
    if (x > LEFT && (broken()[0] === "" || (broken().length > 1 && textWidth(words, face) <= WIDE - labelMm)))
      turn();
    const tag = { role: "P" } as const;
    broken().forEach((piece, k) => {
      if (k > 0) turn();
      const at = k === 0 ? x : LEFT + FACT_HANG;
      const start = k === 0 ? at + labelMm : at;
      rows
        .at(-1)
        ?.push((baseline) =>
          tagged(
            [
              ...(k === 0 ? text(at, baseline, label, FACT_LABEL) : []),
              ...text(start, baseline, piece, face),
            ],
            tag,
          ),
        );
      x = start + textWidth(printable(piece), face) + FACT_GAP;
    });
  }
  return rows.map((row, i) => ({
    height: linesHeight(1, sizePt) + (i === rows.length - 1 ? 0.4 : 0),
    keep: i < rows.length - 1,
    draw: (y) => row.flatMap((piece) => piece(baselineOf(y, sizePt))),
  }));
}

/** A word at the left and what it says beside it, in the narrower face where that takes a line less: blocks of a line each, so that long ones run on. */
export function factForm(name: string, words: string, sizePt = 12.5): Block[] {
  const label = clip(name, 24, FACT_LABEL);
  const left = LEFT + Math.max(8.4, textWidth(label, FACT_LABEL) + 1.4);
  const set = [false, true].map((tight) => {
    const face = { sizePt, bold: false, tight };
    return { face, lines: wrap(words, RIGHT - left, face) };
  });
  const { face, lines } = set.reduce((a, b) => (b.lines.length < a.lines.length ? b : a));
  return lines.map((one, i) => ({
    height: linesHeight(1, sizePt) + (i === lines.length - 1 ? 0.4 : 0),
    keep: i < lines.length - 1,
    draw: (y) =>
      tagged([
        ...(i === 0 ? text(LEFT, baselineOf(y, sizePt), label, FACT_LABEL) : []),
        ...text(left, baselineOf(y, sizePt), one, face),
      ]),
  }));
}

/** A fact with a blank for what comes to be; narrower and then smaller where that takes a line less. */
export function blankAfter(label: string, words: string, blank: Blank, gapMm: number): Block[] {
  const sizePt = 12.5;
  const left = LEFT + textWidth(label, FACT_LABEL) + 1.4;
  const faces: readonly Face[] = [
    { sizePt, bold: false },
    { sizePt, bold: false, tight: true },
    { sizePt: 12, bold: false, tight: true },
  ];
  const blanked = faces.map((face) => ({ face, ...withBlank(words, RIGHT - left, face, blank) }));
  const lines = ({ pieces }: (typeof blanked)[number]): number => pieces.flat().length;
  const { face, pieces, ruleMm } = blanked.reduce((a, b) => (lines(b) < lines(a) ? b : a));
  return pieces.map((piece, k) => ({
    height: Math.max(linesHeight(piece.length, sizePt), 6) + gapMm,
    keep: k < pieces.length - 1,
    draw: (y) => [
      ...tagged([
        ...(k === 0 ? text(LEFT, baselineOf(y, sizePt), label, FACT_LABEL) : []),
        ...setLines(piece, left, y, face),
      ]),
      ...(k === pieces.length - 1
        ? drawBlank(blank, baselineOf(y, sizePt) + linesHeight(piece.length - 1, sizePt), RIGHT, ruleMm)
        : []),
    ],
  }));
}

/** What is written down: a rule to write on, with what it is; the shorter rule where it spares a line. */
const RULE_MM = 14;
const SHORT_RULE_MM = 11;
/** Between a text and the blank beside it, mm. */
const BESIDE_MM = 2;

function blankWords({ of, unit }: Blank): { readonly before: string; readonly after: string } {
  if (of === "photo") return { before: "no.", after: "" };
  return { before: "", after: of === "mass" ? "kg" : unit };
}

const BLANK = { sizePt: 12, bold: false };

function blankMm(blank: Blank, ruleMm: number): number {
  const { before, after } = blankWords(blank);
  return (
    ruleMm +
    (before === "" ? 0 : textWidth(before, BLANK) + 0.8) +
    (after === "" ? 0 : textWidth(after, BLANK) + 0.8)
  );
}

/** The least that a blank takes at the end of a line, with what is kept free before it, mm. */
export function leastBlankMm(blank: Blank): number {
  return blankMm(blank, SHORT_RULE_MM) + BESIDE_MM;
}

function drawBlank(blank: Blank, baseline: number, right: number, ruleMm: number): Mark[] {
  const { before, after } = blankWords(blank);
  const afterMm = after === "" ? 0 : textWidth(after, BLANK) + 0.8;
  const end = right - afterMm;
  const says = {
    photo: "Blank for photograph numbers",
    mass: "Blank for the mass, kg",
    reading: "Blank for the reading",
  }[blank.of];
  return [
    ...(before === "" ? [] : text(end - ruleMm - 0.8, baseline, before, { ...BLANK, align: "right" })),
    ...tagged([line(end - ruleMm, baseline + 0.6, end, baseline + 0.6, 0.7)], { role: "Figure", says }),
    ...(after === "" ? [] : text(right, baseline, after, { ...BLANK, align: "right" })),
  ];
}

/** The lines of a step in pieces; one more at the end for a blank that does not fit beside the last, and how long its rule is. */
function withBlank(
  words: string,
  wide: number,
  face: Face,
  blank: Blank | undefined,
): { readonly pieces: string[][]; readonly ruleMm: number } {
  const lines = wrap(words, wide, face);
  const room = wide - textWidth(lines.at(-1) ?? "", face) - BESIDE_MM;
  const beside = [RULE_MM, SHORT_RULE_MM].find(
    (ruleMm) => blank === undefined || blankMm(blank, ruleMm) <= room,
  );
  return {
    pieces: piecesOf(beside === undefined ? [...lines, ""] : lines),
    ruleMm: beside ?? RULE_MM,
  };
}
