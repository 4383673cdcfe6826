import type { KeptCell } from "../viewstate.ts";
import type { Done } from "../fields/editors.tsx";
import type { Cell } from "../fields/table.ts";
import type { Marking } from "./gridmarks.ts";

/** Which cell is edited and what its editor begins with. */
export interface Editing {
  readonly cell: string;
  readonly first: string;
  readonly typed: boolean;
}

/** What rows tell the grid; the same object all along, so that a row is drawn again only when it changes. */
export interface GridHands {
  press(cell: Cell, cellRef: Place, edits: boolean, marks: Marking): void;
  enter(cellRef: Place): void;
  done(how: Done): void;
  cancel(cell: Cell): void;
  faulty(cell: Cell, faulty: KeptCell, how: Done): void;
}

/** A cell by its line's id and its column. */
export interface Place {
  readonly line: string;
  readonly column: number;
}

/** What is said over a table of what was done with it, or why it was not. */
export interface Word {
  readonly refused: boolean;
  readonly text: string;
}
