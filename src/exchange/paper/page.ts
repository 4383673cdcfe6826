import { BOX, printable } from "./glyphs.ts";
import { BOX_ADVANCE, CAP, DROP, type Face, MM_PER_PT, RISE, textWidth } from "./type.ts";

/**
 * The page model that both renderers draw: boxes in millimetres, origin at the top left, y downwards. Ink is a grey
 * from 0 (black) to 1 (white); nothing on paper relies on colour.
 */

/** What a piece of a page is to a reader that does not see it. */
export interface Tag {
  readonly role:
    "H1" | "H2" | "P" | "L" | "LI" | "Lbl" | "LBody" | "Sect" | "Figure" | "Table" | "TR" | "TH" | "TD";
  /** What a figure says, or what stands in place of the marks' own texts. */
  readonly says?: string;
  /** Of a row: all its cells, those in which no mark stands too, so that each is read under its head. */
  readonly cells?: readonly Tag[];
  /** Of a cell: columns that it covers, one where nothing is said. */
  readonly span?: number;
}

interface Tagged {
  /** What the mark is part of, the widest first; a tag is one piece wherever the same object stands. */
  readonly tags?: readonly Tag[];
}

export interface TextMark extends Face, Tagged {
  readonly kind: "text";
  /** Left end of the baseline. */
  readonly x: number;
  readonly y: number;
  /** Printable characters only. */
  readonly text: string;
  readonly ink: number;
}

/** Straight lines of one width; hatches are many of them. */
export interface LinesMark extends Tagged {
  readonly kind: "lines";
  readonly segments: readonly (readonly [x1: number, y1: number, x2: number, y2: number])[];
  readonly widthMm: number;
  readonly ink: number;
}

export interface RectMark extends Tagged {
  readonly kind: "rect";
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
  /** Width of the black outline, inside and outside half each; 0 for none. */
  readonly lineMm: number;
  /** Grey of the inside; null leaves what is behind. */
  readonly fill: number | null;
}

/** Texts that no tag holds are paragraphs of their own, lines and frames that no figure holds say nothing. Marks are read in their order. */
export type Mark = TextMark | LinesMark | RectMark;

export interface Page {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
  /** What the page is, for bookmarks and for readers that do not see it. */
  readonly name: string;
  /** Pages that belong together (a crew member's booklet); imposition starts a new sheet for each. */
  readonly part: string;
}

export interface Paper {
  readonly title: string;
  /** Date written into the file, milliseconds UTC since 1970: the plan's own, so equal input gives equal bytes. */
  readonly epochMs: number;
  readonly pages: readonly Page[];
}

export interface TextStyle extends Face {
  readonly ink?: number;
  readonly align?: "left" | "right" | "centre";
}

/** Text with its baseline at `y`, starting, centred or ending at `x`; characters the faces lack are framed. */
export function text(x: number, y: number, content: string, style: TextStyle): Mark[] {
  const { sizePt, bold, tight = false, ink = 0, align = "left" } = style;
  const face = { sizePt, bold, tight };
  const whole = printable(content);
  const wide = textWidth(whole, face);
  let at = align === "left" ? x : align === "right" ? x - wide : x - wide / 2;
  const marks: Mark[] = [];
  const em = sizePt * MM_PER_PT;
  for (const piece of whole.split(new RegExp(`(${BOX})`, "u"))) {
    if (piece === "") continue;
    if (piece === BOX) {
      const side = em * 0.08;
      marks.push({
        kind: "rect",
        x: at + side,
        y: y - CAP * em,
        w: BOX_ADVANCE * em - 2 * side,
        h: CAP * em,
        lineMm: em * 0.06,
        fill: null,
      });
    } else {
      marks.push({ kind: "text", x: at, y, text: piece, ink, ...face });
    }
    at += textWidth(piece, face);
  }
  return marks;
}

/** The marks as one piece: a paragraph where nothing else is said. What holds text holds no paragraphs. */
export function tagged(marks: readonly Mark[], tag: Tag = { role: "P" }): Mark[] {
  const isLeaf = LEAVES.has(tag.role);
  return marks.map((mark) => ({
    ...mark,
    tags: [tag, ...(mark.tags ?? []).filter(({ role }) => !isLeaf || role !== "P")],
  }));
}

const LEAVES: ReadonlySet<Tag["role"]> = new Set(["P", "H1", "H2", "Lbl", "TH", "TD"]);

/** One straight line, black. */
export function line(x1: number, y1: number, x2: number, y2: number, widthMm: number): LinesMark {
  return { kind: "lines", segments: [[x1, y1, x2, y2]], widthMm, ink: 0 };
}

/** An outlined rectangle; `fill` is a grey or null. */
export function rect(
  x: number,
  y: number,
  w: number,
  h: number,
  lineMm: number,
  fill: number | null = null,
): RectMark {
  return { kind: "rect", x, y, w, h, lineMm, fill };
}

/** The space a mark takes on its page, mm. */
export function extentOf(mark: Mark): { left: number; top: number; right: number; bottom: number } {
  if (mark.kind === "text") {
    const em = mark.sizePt * MM_PER_PT;
    return {
      left: mark.x,
      top: mark.y - RISE * em,
      right: mark.x + textWidth(mark.text, mark),
      bottom: mark.y + DROP * em,
    };
  }
  const half = (mark.kind === "rect" ? mark.lineMm : mark.widthMm) / 2;
  if (mark.kind === "rect") {
    return {
      left: mark.x - half,
      top: mark.y - half,
      right: mark.x + mark.w + half,
      bottom: mark.y + mark.h + half,
    };
  }
  const xs = mark.segments.flatMap(([x1, , x2]) => [x1, x2]);
  const ys = mark.segments.flatMap(([, y1, , y2]) => [y1, y2]);
  return {
    left: Math.min(...xs) - half,
    top: Math.min(...ys) - half,
    right: Math.max(...xs) + half,
    bottom: Math.max(...ys) + half,
  };
}

/** The mark moved right by `dx` and down by `dy`, mm. */
export function moved(mark: Mark, dx: number, dy: number): Mark {
  if (mark.kind !== "lines") return { ...mark, x: mark.x + dx, y: mark.y + dy };
  return {
    ...mark,
    segments: mark.segments.map(([x1, y1, x2, y2]) => [x1 + dx, y1 + dy, x2 + dx, y2 + dy] as const),
  };
}
