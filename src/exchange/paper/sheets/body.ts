import type { Mark } from "../page.ts";

/** What a sheet says, before it is set on paper of some size. */
export interface Body {
  readonly title: string;
  /** Said under the head of each of its sheets. */
  readonly under: readonly string[];
  /** Signs and roundings explained, at the foot of each of its sheets. */
  readonly key: readonly string[];
  /** Laid on its side where the paper is large enough to have a side. */
  readonly wide: boolean;
  readonly sections: readonly Section[];
}

export type Section = Table | Words | Drawing;

/** A table: its head is repeated on every sheet, a row is never split. */
export interface Table {
  readonly kind: "table";
  readonly title?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** Set no larger than this, where many rows on a sheet are worth more than their size. */
  readonly mostPt?: number;
  /** Stands in place of rows where there are none. */
  readonly none: string;
}

/** A paragraph. */
interface Words {
  readonly kind: "words";
  readonly text: string;
  readonly bold?: boolean;
}

/** A picture that takes the width there is and so much of its height. */
export interface Drawing {
  readonly kind: "drawing";
  /** Height over width. */
  readonly aspect: number;
  /** What it shows, for readers that do not see it, and where the same is said in words. */
  readonly says: string;
  draw(x: number, y: number, wideMm: number, highMm: number): readonly Mark[];
}

export interface Column {
  readonly head: string;
  /** Columns side by side with the same one have it over them. */
  readonly group?: string;
  readonly align?: "right" | "centre";
  /** Takes its share of the width that is left over; its text may take several lines. */
  readonly grow?: number;
  /** To be written into: framed, so wide. */
  readonly blankMm?: number;
  readonly bold?: boolean;
  /** Keeps room on its left for thick bars, clear of the column before it and of its own text. */
  readonly bars?: boolean;
  /** What a row is known by: where the table is wider than the paper it stands again in each of its parts. */
  readonly known?: boolean;
}

export interface Row {
  readonly cells: readonly Cell[];
  /** Heavier: a sum, a limit. */
  readonly strong?: boolean;
  /** What the rows up to the next one that leads are about: heavier, never alone, and over them again where they go on on another page. */
  readonly leads?: boolean;
  /** One thing with the row after it: on one page, without a rule between them. */
  readonly joined?: boolean;
}

export interface Cell {
  readonly text: string;
  /** A second, smaller line. */
  readonly under?: string;
  /** A task's number, framed, before the text. */
  readonly number?: string | undefined;
  readonly bold?: boolean;
  /** Covers so many columns. */
  readonly span?: number;
  /** A thick bar down its left side: something is there all through the row. */
  readonly bar?: boolean;
  /** A thin line down: what began above goes on. */
  readonly goesOn?: boolean;
}

/** An empty cell, to be written into or with nothing to say. */
export const EMPTY: Cell = { text: "" };
