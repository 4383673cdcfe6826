import type { KeyboardEvent } from "react";
import { type Extent, moved, type CellRef } from "./gridmoves.ts";
import type { GridWriting } from "./gridwriting.ts";
import type { Cell } from "../fields/table.ts";

/** What keys do in a grid while no cell is edited. */
export interface GridKeys {
  readonly spot: CellRef;
  readonly cell: Cell;
  readonly extent: Extent;
  readonly writing: GridWriting;
  /** True where rows can be marked. */
  readonly marks: boolean;
  readonly anyMarked: boolean;
  go(to: CellRef): void;
  mark(from: number, to: number): void;
  markAll(): void;
  unmark(): void;
}

/** Does what the key is for; true when it was for the grid. */
export function gridKey(event: KeyboardEvent, grid: GridKeys): boolean {
  if (event.altKey) return false;
  const { spot, cell, extent, writing } = grid;
  const ctrl = event.ctrlKey || event.metaKey;
  if (grid.marks && ctrl && event.key.toLowerCase() === "a") {
    grid.markAll();
    return true;
  }
  const to = moved(spot, event.key, ctrl, extent);
  if (to) {
    if (grid.marks && event.shiftKey && to.row !== spot.row) grid.mark(spot.row, to.row);
    grid.go(to);
    return true;
  }
  switch (event.key) {
    case "Escape":
      if (writing.drafts.has(cell.id)) writing.keep(cell, null);
      else if (grid.anyMarked) grid.unmark();
      else return false;
      return true;
    case "Enter":
    case "F2":
      writing.edit(cell);
      return true;
    case "Delete":
    case "Backspace":
      if (cell.fixed === null) writing.clear(cell);
      return cell.fixed === null;
    case " ":
      if (cell.entry.editor !== "tick" || cell.fixed !== null) return false;
      writing.flip(cell);
      return true;
    default:
      if (event.key.length !== 1 || ctrl || cell.entry.editor === "tick") return false;
      writing.edit(cell, event.key);
      return true;
  }
}
