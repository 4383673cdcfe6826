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
}

export const SCALES: { readonly roomy: Scale; readonly usual: Scale; readonly close: Scale } = {
  roomy: { titlePt: [20, 19, 18, 17, 16, 15], factPt: 14, stepPt: 14, cautionPt: 14, cellMm: 25 },
  usual: { titlePt: [18, 17, 16, 15, 14], factPt: 12, stepPt: 12, cautionPt: 12, cellMm: 23 },
  close: { titlePt: [15, 14], factPt: 11, stepPt: 11, cautionPt: 11, cellMm: 20 },
};

const LABEL = { sizePt: 9, bold: true };
const CELL_SIZES = [34, 32, 30, 28, 26, 24, 22, 20, 18, 16, 14, 12];
/** Height above and below the value inside a cell. */
const ABOVE = 6.2;
const BELOW = 5.6;

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
  const sizePt = isNumber(cell.value) ? numberPt : fitSize(cell.value, inner, true, [18, 16, 14, 12], 2);
  const lines = wrap(cell.value, inner, { sizePt, bold: true });
  const belowPt = fitSize(cell.below, inner, false, [11, 10.5, 10, 9.5, 9, 8.5, 8], 1);
  // Capitals and figures, not line boxes, are centred between the label and the last line.
  const ink = linesHeight(lines.length - 1, sizePt) + CAP * sizePt * MM_PER_PT;
  const baseline = y + ABOVE + (high - ABOVE - BELOW - ink) / 2 + CAP * sizePt * MM_PER_PT;
  const centre = { bold: true, align: "centre" } as const;
  return [
    rect(x + 0.6, y, wide - 1.2, high, cell.heavy === true ? 1.1 : 0.4),
    ...text(x + wide / 2, y + 4.5, cell.label, { sizePt: 9, ...centre }),
    ...lines.flatMap((content, i) =>
      text(x + wide / 2, baseline + linesHeight(i, sizePt), content, { sizePt, ...centre }),
    ),
    ...text(x + wide / 2, y + high - 1.9, cell.below, { sizePt: belowPt, bold: false, align: "centre" }),
  ];
}

/** A word at the left and what it says beside it, wrapped; a block for each line, so that long lists run on. */
export function fact(label: string, content: string, sizePt: number): Block[] {
  const left = LEFT + 19;
  const lines = wrap(content, RIGHT - left, { sizePt, bold: true });
  return lines.map((one, i) => ({
    height: linesHeight(1, sizePt) + (i === lines.length - 1 ? 0.7 : 0),
    draw: (y) => [
      ...(i === 0 ? text(LEFT, y + RISE * sizePt * MM_PER_PT, label, LABEL) : []),
      ...setLines([one], left, y, { sizePt, bold: true }),
    ],
  }));
}

/** Warnings in heavy frames with a hatched side; as few frames as `mostMm` of height each allows. */
export function warnings(word: string, list: readonly string[], sizePt: number, mostMm = 60): Block[] {
  const face = { sizePt, bold: true };
  const left = LEFT + 9;
  const blocks: Block[] = [];
  let lines: { content: string; first: boolean }[] = [];
  const close = (): void => {
    if (lines.length === 0) return;
    const held = lines;
    const label = blocks.length === 0 ? word : `${word} (continued)`;
    const high = linesHeight(held.length, face.sizePt) + 6.4;
    blocks.push({
      height: high + 1.6,
      draw: (y) => [
        rect(LEFT + 0.6, y + 0.6, WIDE - 1.2, high - 0.6, 1.1),
        hatch(LEFT + 1.2, y + 1.2, 5.4, high - 1.8, 2, 0.6),
        line(LEFT + 6.7, y + 0.6, LEFT + 6.7, y + high, 0.5),
        ...text(left, y + 4.6, label, { sizePt: 10, bold: true }),
        ...held.flatMap(({ content, first }, i) => [
          ...setLines([content], left + 3, y + 5.2 + linesHeight(i, face.sizePt), face),
          ...(first ? setLines(["•"], left, y + 5.2 + linesHeight(i, face.sizePt), face) : []),
        ]),
      ],
    });
    lines = [];
  };
  for (const warning of list) {
    const own = wrap(warning, RIGHT - left - 5, face).map((content, i) => ({ content, first: i === 0 }));
    const fits = (count: number): boolean => linesHeight(lines.length + count, face.sizePt) + 8 <= mostMm;
    if (!fits(own.length)) close();
    for (const one of own) {
      if (!fits(1)) close();
      lines.push(one);
    }
  }
  close();
  return blocks;
}

/** A numbered step with a box to tick; a block for each eight lines, so that even the longest finds a page. */
export function step(number: number, content: string, sizePt: number): Block[] {
  const face = { sizePt, bold: false };
  const left = LEFT + 14;
  const side = Math.max(4.2, linesHeight(1, sizePt) * 0.92);
  const lines = wrap(content, RIGHT - left, face);
  const blocks: Block[] = [];
  for (let from = 0; from < lines.length; from += 8) {
    const held = lines.slice(from, from + 8);
    const last = from + 8 >= lines.length;
    blocks.push({
      height: Math.max(linesHeight(held.length, face.sizePt), side) + (last ? 1.7 : 0),
      draw: (y) => [
        ...(from === 0 ? tick(LEFT + 0.3, y + 0.3, side) : []),
        ...(from === 0
          ? text(LEFT + 12.3, y + RISE * face.sizePt * MM_PER_PT, `${number}`, {
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
