import type { KeyboardEvent } from "react";
import type { RowMarks } from "./gridmarks.ts";
import { type Extent, moved, type CellRef } from "./gridmoves.ts";
import type { GridWriting } from "./gridwriting.ts";
import type { Cell } from "../fields/table.ts";

/** What keys do in a grid while no cell is edited. */
export interface GridKeys {
  readonly cellRef: CellRef;
  readonly cell: Cell;
  readonly extent: Extent;
  readonly writing: GridWriting;
  readonly marks: RowMarks;
  /** True where rows can be marked. */
  readonly canMark: boolean;
  readonly anyMarked: boolean;
  go(to: CellRef): void;
}

/** Does what the key is for; true when it was for the grid. */
export function gridKey(event: KeyboardEvent, grid: GridKeys): boolean {
  if (event.altKey) return false;
  const ctrl = event.ctrlKey || event.metaKey;
  if (moves(event, ctrl, grid)) return true;
  if (event.key === "Escape") return givesUp(grid);
  return writes(event.key, ctrl, grid);
}

/** Moves the place, and marks the rows it comes by where Shift is held. */
function moves({ key, shiftKey }: KeyboardEvent, ctrl: boolean, grid: GridKeys): boolean {
  const { cellRef, extent } = grid;
  const to = moved(cellRef, key, ctrl, extent);
  if (!to) return false;
  if (grid.canMark && shiftKey && to.row !== cellRef.row) grid.marks.mark(cellRef.row, to.row);
  grid.go(to);
  return true;
}

/** Forgets the cell's refused draft, else what is marked. */
function givesUp({ cell, writing, marks, anyMarked }: GridKeys): boolean {
  if (writing.drafts.has(cell.id)) writing.keep(cell, null);
  else if (anyMarked) marks.unmark();
  else return false;
  return true;
}

/** Opens, empties, ticks or begins to write the cell. */
function writes(key: string, ctrl: boolean, { cell, writing }: GridKeys): boolean {
  const ticked = cell.entry.editor === "tick";
  switch (key) {
    case "Enter":
    case "F2":
      writing.edit(cell);
      return true;
    case "Delete":
    case "Backspace":
      if (cell.fixed === null) writing.clear(cell);
      return cell.fixed === null;
    case " ":
      if (!ticked || cell.fixed !== null) return false;
      writing.flip(cell);
      return true;
    default:
      if (key.length !== 1 || ctrl || ticked) return false;
      writing.edit(cell, key);
      return true;
  }
}
