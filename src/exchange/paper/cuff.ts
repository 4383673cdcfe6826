import { type Block, flow, type Room } from "./flow.ts";
import { hatch } from "./hatch.ts";
import { line, type Mark, type Page, tagged, text } from "./page.ts";
import { CAP, clip, fitSize, linesHeight, MM_PER_PT, RISE, textWidth, wrap } from "./type.ts";

/**
 * The cuff page. 98 x 132 mm: the largest page that goes four to a sheet on A4 and on Letter alike and leaves room all
 * round for cut marks and the printer's margin; it covers a forearm and no more. The ring is on the left.
 *
 * Sizes: steps 14 pt, 13.5 at the least, what a partner does 13.5, labels 11. Small letters of 2.54 mm (0.10 in) are the least for important print on a
 * flight deck, sans serif, lower case for running text, black on white (Degani 1992, NASA CR-177605, value from memory): 13.2 pt of this face. Capitals
 * should fill 15 to 16 minutes of arc at the least and 20 better (NUREG-0700 rev. 3, 11.4.1.5-1): 11 pt fill 19.8 at 50 cm. What is dangerous first, one
 * action an item, a call at the end (Degani & Wiener 1990, NASA CR-177549, from memory).
 */
export const CUFF = { widthMm: 98, heightMm: 132 } as const;

/** Left edge and width of all content. */
export const LEFT = 8;
export const WIDE = 86;
export const RIGHT = LEFT + WIDE;

/** Where content begins under the head of a page without fixed rows, and where it ends on every page. */
const BODY: Room = { top: 13.6, bottom: 126.6 };

/** Where the hatched edge of a page that is found by leafing begins, clear of what stands on it, mm. */
const EDGE = CUFF.widthMm - 2.9;

/** Kept free at the lower right for the number of the page, where a thumb turns it, mm. */
export const THUMB_MM = 13;

/** Least size of what the crew reads, points. */
export const LABEL_PT = 11;

/** Who decides. */
export const STANDING = "Planning and training aid. Flight rules and the authorities in charge decide.";

/** What stands on every page of a booklet. */
export interface Heading {
  readonly crew: string;
  readonly eva: string;
  /** The plan's title, and the name, fingerprint and number of tasks of its state, for the desk: at the foot. */
  readonly title: string;
  readonly state: string;
  /** Booklet the page belongs to. */
  readonly part: string;
}

/** Content that still lacks its page number. */
export interface Leaf {
  readonly heading: Heading;
  readonly name: string;
  readonly marks: readonly Mark[];
  /** Hatched along the outer edge and on top, to be found by leafing. */
  readonly edge: boolean;
}

/** Content under a title, set on as many leaves as it needs. */
export function leaves(
  heading: Heading,
  name: string,
  title: string,
  blocks: readonly Block[],
  more: {
    readonly again?: Block;
    readonly foot?: Block;
    readonly edge?: boolean;
    /** The title is what is looked for, and stands first and largest. */
    readonly loud?: boolean;
  } = {},
): Leaf[] {
  const { again = null, foot = null, edge = false, loud = false } = more;
  // The number of the page has a place of its own.
  const room = edge ? BODY : { ...BODY, bottom: BODY.bottom - 6.5 };
  return flow(blocks, room, again, foot).map((marks, i) => ({
    heading,
    name: i === 0 ? name : `${name} (continued)`,
    marks: [...titled(heading, i === 0 ? title : `${title}, on`, loud), ...marks],
    edge,
  }));
}

/** The head of a page that is about the EVA: who, and what the page is. */
function titled({ crew, eva }: Heading, title: string, loud: boolean): Mark[] {
  const big = { sizePt: loud ? 24 : 17, bold: true };
  const [left, words] = loud
    ? [title, `${clip(crew, WIDE / 4, big)} ${eva}`]
    : [clip(crew, WIDE / 2, big), `${eva} ${title}`];
  const wide = WIDE - textWidth(left, big) - 4;
  const sizePt = fitSize(words, wide, true, [15, 14, 13, 12, LABEL_PT], 1);
  return [
    ...tagged(
      [
        ...text(LEFT, 10.4, left, big),
        ...text(RIGHT, 10.4, clip(words, wide, { sizePt, bold: true }), {
          sizePt,
          bold: true,
          align: "right",
        }),
      ],
      { role: "H1" },
    ),
    line(LEFT, 12.2, RIGHT, 12.2, 0.8),
  ];
}

/** The leaves of one booklet as pages, each with its number. */
export function bound(list: readonly Leaf[]): Page[] {
  return list.map((leaf, i) => ({
    ...CUFF,
    name: `${leaf.heading.crew}, ${leaf.heading.eva}: ${leaf.name}`,
    part: leaf.heading.part,
    marks: [
      ...leaf.marks,
      ...(leaf.edge
        ? [
            hatch(EDGE, 0.7, 2.1, CUFF.heightMm - 1.4, 2.8, 1.2),
            hatch(LEFT, 0.7, EDGE - LEFT - 0.6, 2, 2.8, 1.2),
          ]
        : text(RIGHT, 126.1, `${i + 1}`, { sizePt: 15, bold: true, align: "right" })),
      ...foot(leaf.heading, `${i + 1} of ${list.length}`),
    ],
  }));
}

/** For the desk and not for the crew: which plan, in which state, which page. Whose booklet it is stands in every head. */
function foot({ title, state }: Heading, count: string): Mark[] {
  const full = { sizePt: 7, bold: false, tight: true };
  // Of the foot nothing but the title may be cut: it is set smaller where even without one it is too long.
  const rest = ` · ${state} · ${count} · Training aid`;
  const face = { ...full, sizePt: full.sizePt * Math.min(1, WIDE / textWidth(`…${rest}`, full)) };
  const words = `${clip(title, WIDE - textWidth(rest, face), face)}${rest}`;
  return [line(LEFT, 127.3, RIGHT, 127.3, 0.5), ...text(LEFT, 129.8, words, face)];
}

/** Bold running text over the full width, wrapped; in the first of `sizesPt` in which no word is broken. */
export function paragraph(
  content: string,
  { sizesPt, after = 0 }: { readonly sizesPt: readonly number[]; readonly after?: number },
): Block {
  const wide = RIGHT - LEFT;
  const sizePt = fitSize(content, wide, true, sizesPt, Infinity);
  const lines = wrap(content, wide, { sizePt, bold: true });
  return {
    height: linesHeight(lines.length, sizePt) + after,
    keep: false,
    draw: (y) => setLines(lines, LEFT, y, { sizePt, bold: true }),
  };
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
      text(x, baselineOf(y, style.sizePt) + linesHeight(i, style.sizePt), content, style),
    ),
  );
}

/** The baseline of a line whose top is at `y`. */
export function baselineOf(y: number, sizePt: number): number {
  return y + RISE * sizePt * MM_PER_PT;
}

/** The baseline of capitals and figures that stand in the middle between `top` and `bottom`. */
export function middleOf(top: number, bottom: number, sizePt: number): number {
  return (top + bottom + CAP * sizePt * MM_PER_PT) / 2;
}

/** Empty height. */
export function gap(height: number): Block {
  return { height, draw: () => [] };
}
