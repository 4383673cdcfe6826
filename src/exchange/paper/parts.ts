import { LEFT, RIGHT, setLines, WIDE } from "./cuff.ts";
import type { Block } from "./flow.ts";
import { hatch } from "./hatch.ts";
import { line, type Mark, rect, text } from "./page.ts";
import { CAP, fitSize, linesHeight, MM_PER_PT, RISE, textWidth, wrap } from "./type.ts";

/** The recurring parts of cuff pages. */

/** A big number with a word above and a line below. */
export interface Cell {
  readonly label: string;
  readonly value: string;
  readonly below: string;
  /** Share of the width. */
  readonly share: number;
  /** Heavier frame: the first thing to be read. */
  readonly heavy?: boolean;
}

/** Sizes of the flowing parts: a page takes the roomiest that still holds its task. */
export interface Scale {
  readonly titlePt: readonly number[];
  readonly factPt: number;
  readonly stepPt: number;
  readonly cautionPt: number;
  /** Height of the row of big numbers. */
  readonly cellMm: number;
  /** Between two steps. */
  readonly stepGapMm: number;
  /** Small headings and the word over the cautions stand on lines of their own. */
  readonly headings: boolean;
}

/** From the roomiest to the closest. */
export const SCALES: readonly [Scale, ...Scale[]] = [
  {
    titlePt: [20, 19, 18, 17, 16, 15],
    factPt: 14,
    stepPt: 14,
    cautionPt: 14,
    cellMm: 25,
    stepGapMm: 2,
    headings: true,
  },
  {
    titlePt: [18, 17, 16, 15, 14],
    factPt: 12,
    stepPt: 12,
    cautionPt: 12,
    cellMm: 22,
    stepGapMm: 1.6,
    headings: true,
  },
  {
    titlePt: [16, 15, 14],
    factPt: 11,
    stepPt: 11,
    cautionPt: 11,
    cellMm: 19,
    stepGapMm: 1.1,
    headings: false,
  },
  {
    titlePt: [15, 14],
    factPt: 10.5,
    stepPt: 10.5,
    cautionPt: 10.5,
    cellMm: 18.5,
    stepGapMm: 0.8,
    headings: false,
  },
  {
    titlePt: [14],
    factPt: 10,
    stepPt: 10,
    cautionPt: 10,
    cellMm: 17.5,
    stepGapMm: 0.5,
    headings: false,
  },
];

const LABEL = { sizePt: 9, bold: true };
const CELL_SIZES = [34, 32, 30, 28, 26, 24, 22, 20, 18, 16, 14, 12];
/** Words instead of a number keep to one line: two would stand in the label and the line below. */
const WORD_SIZES = [18, 17, 16, 15, 14, 13, 12, 11, 10, 9];
/** Height above and below the value inside a cell. */
const ABOVE = 5.3;
const BELOW = 5.5;

/** Cells side by side over the full width; their numbers share the largest size that fits all. */
export function cellRow(cells: readonly Cell[], heightMm: number): Block {
  const shares = cells.reduce((sum, cell) => sum + cell.share, 0);
  const wideOf = (cell: Cell): number => (WIDE * cell.share) / shares;
  const highest = (heightMm - 1 - ABOVE - BELOW) / (CAP * MM_PER_PT);
  const sizes = CELL_SIZES.filter((sizePt) => sizePt <= highest);
  const numbers = cells.filter((cell) => isNumber(cell.value));
  const sizePt = Math.min(...numbers.map((cell) => fitSize(cell.value, wideOf(cell) - 3.4, true, sizes, 1)));
  return {
    height: heightMm + 2,
    draw: (y) => {
      const marks: Mark[] = [];
      let x = LEFT;
      for (const cell of cells) {
        marks.push(...drawCell(cell, x, y + 0.8, wideOf(cell), heightMm - 1, sizePt));
        x += wideOf(cell);
      }
      return marks;
    },
  };
}

function isNumber(value: string): boolean {
  return /^-?\d/.test(value);
}

function drawCell(cell: Cell, x: number, y: number, wide: number, high: number, numberPt: number): Mark[] {
  const inner = wide - 3.4;
  const sizePt = isNumber(cell.value) ? numberPt : fitSize(cell.value, inner, true, WORD_SIZES, 1);
  const lines = wrap(cell.value, inner, { sizePt, bold: true });
  const belowPt = fitSize(cell.below, inner, false, [10.5, 10, 9.5, 9, 8.5, 8], 1);
  // Capitals and figures, not line boxes, are centred between the label and the last line.
  const ink = linesHeight(lines.length - 1, sizePt) + CAP * sizePt * MM_PER_PT;
  const baseline = y + ABOVE + (high - ABOVE - BELOW - ink) / 2 + CAP * sizePt * MM_PER_PT;
  const centre = { bold: true, align: "centre" } as const;
  return [
    rect(x + 0.6, y, wide - 1.2, high, cell.heavy === true ? 1.1 : 0.4),
    ...text(x + wide / 2, y + 4.2, cell.label, { sizePt: 9, ...centre }),
    ...lines.flatMap((content, i) =>
      text(x + wide / 2, baseline + linesHeight(i, sizePt), content, { sizePt, ...centre }),
    ),
    ...text(x + wide / 2, y + high - 1.7, cell.below, { sizePt: belowPt, bold: false, align: "centre" }),
  ];
}

/** Words at the left and what they say beside them. */
export type Fact = readonly [label: string, words: string];

const FACT_LEFT = LEFT + 16;

/** A word at the left and what it says beside it, wrapped; a block for each line, so that long lists run on. */
export function fact([label, words]: Fact, sizePt: number): Block[] {
  const lines = wrap(words, RIGHT - FACT_LEFT, { sizePt, bold: true });
  return lines.map((one, i) => ({
    height: linesHeight(1, sizePt) + (i === lines.length - 1 ? 0.5 : 0),
    draw: (y) => [
      ...(i === 0 ? text(LEFT, y + RISE * sizePt * MM_PER_PT, label, LABEL) : []),
      ...setLines([one], FACT_LEFT, y, { sizePt, bold: true }),
    ],
  }));
}

/** Two facts on one line where both are short, else one under the other. */
export function factPair(left: Fact, right: Fact, sizePt: number): Block[] {
  const face = { sizePt, bold: true };
  const fits = ([, words]: Fact, wide: number): boolean => {
    const lines = wrap(words, wide, face);
    return lines.length === 1 && textWidth(lines[0]!, face) <= wide;
  };
  const second = LEFT + 38;
  if (!fits(left, second - FACT_LEFT - 2) || !fits(right, RIGHT - second - 14)) {
    return [...fact(left, sizePt), ...fact(right, sizePt)];
  }
  const baseline = RISE * sizePt * MM_PER_PT;
  return [
    {
      height: linesHeight(1, sizePt) + 0.5,
      draw: (y) => [
        ...text(LEFT, y + baseline, left[0], LABEL),
        ...text(FACT_LEFT, y + baseline, left[1], face),
        ...text(second, y + baseline, right[0], LABEL),
        ...text(second + 14, y + baseline, right[1], face),
      ],
    },
  ];
}

/**
 * Warnings in heavy frames with a hatched side; as few frames as `mostMm` of height each allows. The word stands
 * over them, or before the first one where room is short.
 */
export function warnings(
  word: string,
  list: readonly string[],
  scale: Pick<Scale, "cautionPt" | "headings">,
  mostMm = 60,
): Block[] {
  const face = { sizePt: scale.cautionPt, bold: true };
  const left = LEFT + 8.4;
  const over = scale.headings ? 5 : 0.9;
  const blocks: Block[] = [];
  let lines: { words: string; first: boolean }[] = [];
  const close = (): void => {
    if (lines.length === 0) return;
    const held = lines;
    const label = blocks.length === 0 ? word : `${word} (continued)`;
    const high = linesHeight(held.length, face.sizePt) + over + 1.1;
    blocks.push({
      height: high + 1.4,
      draw: (y) => [
        rect(LEFT + 0.6, y + 0.6, WIDE - 1.2, high - 0.6, 1.1),
        hatch(LEFT + 1.2, y + 1.2, 5, high - 1.8, 2, 0.6),
        line(LEFT + 6.4, y + 0.6, LEFT + 6.4, y + high, 0.5),
        ...(scale.headings ? text(left, y + 4.6, label, { sizePt: 10, bold: true }) : []),
        ...held.flatMap(({ words, first }, i) => [
          ...(first ? setLines(["•"], left, y + over + linesHeight(i, face.sizePt), face) : []),
          ...setLines([words], left + 3, y + over + linesHeight(i, face.sizePt), face),
        ]),
      ],
    });
    lines = [];
  };
  list.forEach((warning, k) => {
    const words = scale.headings || k > 0 ? warning : `${word}: ${warning}`;
    const own = wrap(words, RIGHT - left - 5, face).map((one, i) => ({ words: one, first: i === 0 }));
    const fits = (count: number): boolean => linesHeight(lines.length + count, face.sizePt) + 8 <= mostMm;
    if (!fits(own.length)) close();
    for (const one of own) {
      if (!fits(1)) close();
      lines.push(one);
    }
  });
  close();
  return blocks;
}

/** A numbered step with a box to tick; a block for each eight lines, so that even the longest finds a page. */
export function step(
  number: number,
  content: string,
  { stepPt: sizePt, stepGapMm }: Pick<Scale, "stepPt" | "stepGapMm">,
): Block[] {
  const face = { sizePt, bold: false };
  const left = LEFT + 12.5;
  const side = linesHeight(1, sizePt) * 0.88;
  const lines = wrap(content, RIGHT - left, face);
  const blocks: Block[] = [];
  for (let from = 0; from < lines.length; from += 8) {
    const held = lines.slice(from, from + 8);
    const last = from + 8 >= lines.length;
    blocks.push({
      height: Math.max(linesHeight(held.length, face.sizePt), side) + (last ? stepGapMm : 0),
      draw: (y) => [
        ...(from === 0 ? tick(LEFT + 0.3, y + 0.3, side) : []),
        ...(from === 0
          ? text(LEFT + 11, y + RISE * face.sizePt * MM_PER_PT, `${number}`, {
              sizePt,
              bold: true,
              align: "right",
            })
          : []),
        ...setLines(held, left, y, face),
      ],
    });
  }
  return blocks;
}

/** A box to tick. */
export function tick(x: number, y: number, side: number): Mark[] {
  return [rect(x, y, side, side, 0.45)];
}

/** A small heading with a rule that runs to the right edge; stays with what follows. */
export function heading(word: string): Block {
  return {
    height: 6,
    keep: true,
    draw: (y) => [
      ...text(LEFT, y + 4, word, { sizePt: 10, bold: true }),
      line(LEFT + textWidth(word, { sizePt: 10, bold: true }) + 2, y + 2.8, RIGHT, y + 2.8, 0.35),
    ],
  };
}
