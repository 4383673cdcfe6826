import { type Block, flow, type Room } from "./flow.ts";
import { hatch } from "./hatch.ts";
import { line, type Mark, type Page, tagged, text } from "./page.ts";
import { clip, fitSize, linesHeight, MM_PER_PT, RISE, textWidth, wrap } from "./type.ts";

/**
 * The cuff page and its fixed parts. 98 x 132 mm: the largest page that goes four to a sheet on A4 and on Letter
 * alike and leaves 7 mm all round for cut marks and the printer's margin; it covers a forearm and no more. Nothing
 * the crew must read is set below 9 points; what the eye must find first starts at 14.
 */
export const CUFF = { widthMm: 98, heightMm: 132 } as const;

/** Left edge and width of all content. */
export const LEFT = 5;
export const WIDE = 88;
export const RIGHT = LEFT + WIDE;

const BODY: Room = { top: 11.4, bottom: 123.2 };

/** Who decides: on every page. */
export const STANDING = "Planning and training aid. Flight rules and the authorities in charge decide.";

/** What stands at the head and foot of every page of a booklet. */
export interface Heading {
  readonly crew: string;
  readonly eva: string;
  readonly title: string;
  /** Booklet the page belongs to. */
  readonly part: string;
}

/** Content that still lacks its page number. */
export interface Leaf {
  readonly heading: Heading;
  readonly name: string;
  readonly marks: readonly Mark[];
  /** Hatched along the outer edge, to be found by leafing. */
  readonly edge: boolean;
}

/** Content set on as many leaves as it needs. */
export function leaves(
  heading: Heading,
  name: string,
  blocks: readonly Block[],
  more: { readonly again?: Block; readonly foot?: Block; readonly edge?: boolean } = {},
): Leaf[] {
  const { again = null, foot = null, edge = false } = more;
  return flow(blocks, BODY, again, foot).map((marks, i) => ({
    heading,
    name: i === 0 ? name : `${name} (continued)`,
    marks,
    edge,
  }));
}

/** The leaves of one booklet as pages, each with its number. */
export function bound(list: readonly Leaf[]): Page[] {
  return list.map((leaf, i) => ({
    ...CUFF,
    name: `${leaf.heading.crew}, ${leaf.heading.eva}: ${leaf.name}`,
    part: leaf.heading.part,
    marks: [
      ...head(leaf.heading, `${i + 1} / ${list.length}`),
      ...leaf.marks,
      ...foot(leaf.heading, `Page ${i + 1} of ${list.length}`),
      ...(leaf.edge ? [hatch(CUFF.widthMm - 3, 0.5, 2.5, CUFF.heightMm - 1, 2.2, 0.7)] : []),
    ],
  }));
}

function head(heading: Heading, count: string): Mark[] {
  const big = { sizePt: 16, bold: true };
  const small = { sizePt: 11, bold: true };
  const countWide = textWidth(count, small);
  const crew = clip(heading.crew, 40, big);
  const crewWide = textWidth(crew, big);
  const eva = clip(heading.eva, WIDE - crewWide - countWide - 8, small);
  return [
    ...text(LEFT, 8.4, crew, big),
    ...text(LEFT + crewWide + 4, 8.4, eva, small),
    ...text(RIGHT, 8.4, count, { ...small, align: "right" }),
    line(LEFT, 10.2, RIGHT, 10.2, 0.7),
  ];
}

function foot(heading: Heading, count: string): Mark[] {
  const face = { sizePt: 6.4, bold: false };
  const countWide = textWidth(count, face);
  return [
    line(LEFT, 124.2, RIGHT, 124.2, 0.2),
    ...text(LEFT, 126.9, clip(heading.title, WIDE - countWide - 3, face), face),
    ...text(RIGHT, 126.9, count, { ...face, align: "right" }),
    ...text(LEFT, 129.6, STANDING, { sizePt: 6.4, bold: true }),
  ];
}

/** Running text over the full width (or from `left` on), wrapped; shrinks through `sizesPt` to reach `mostLines`. */
export function paragraph(
  content: string,
  style: {
    readonly sizesPt: readonly number[];
    readonly bold?: boolean;
    readonly mostLines?: number;
    readonly left?: number;
    readonly wide?: number;
    readonly after?: number;
    readonly keep?: boolean;
  },
): Block {
  const { sizesPt, bold = false, mostLines = Infinity, left = LEFT, after = 0, keep = false } = style;
  const wide = style.wide ?? RIGHT - left;
  const sizePt = withoutStump(content, wide, bold, sizesPt, fitSize(content, wide, bold, sizesPt, mostLines));
  const lines = wrap(content, wide, { sizePt, bold });
  return {
    height: linesHeight(lines.length, sizePt) + after,
    keep,
    draw: (y) => setLines(lines, left, y, { sizePt, bold }),
  };
}

/** Less than this share of the width alone on the last line is a stump: the number of a place, an "at", a "B". */
const STUMP = 0.12;

/** A smaller size from `sizesPt` that needs a line less, where at `sizePt` the last line is a stump; else `sizePt`. */
function withoutStump(
  content: string,
  wide: number,
  bold: boolean,
  sizesPt: readonly number[],
  sizePt: number,
): number {
  const lines = wrap(content, wide, { sizePt, bold });
  if (lines.length < 2 || textWidth(lines.at(-1)!, { sizePt, bold }) >= STUMP * wide) return sizePt;
  const fits = (size: number): boolean => wrap(content, wide, { sizePt: size, bold }).length < lines.length;
  return sizesPt.find((size) => size < sizePt && fits(size)) ?? sizePt;
}

/** Lines one under the other, the first one's top at `y`. */
export function setLines(
  lines: readonly string[],
  x: number,
  y: number,
  style: {
    readonly sizePt: number;
    readonly bold: boolean;
    readonly tight?: boolean;
    readonly ink?: number;
    readonly align?: "left" | "right" | "centre";
  },
): Mark[] {
  return tagged(
    lines.flatMap((content, i) =>
      text(x, y + linesHeight(i, style.sizePt) + RISE * style.sizePt * MM_PER_PT, content, style),
    ),
  );
}

/** Empty height. */
export function gap(height: number): Block {
  return { height, draw: () => [] };
}
