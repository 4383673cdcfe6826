import type { ClipboardEvent } from "react";
import { type Session, tabbedRows } from "../../session/index.ts";
import { isBlock } from "../fields/entry.ts";
import type { Line, Table } from "../fields/table.ts";
import type { Word } from "./gridhands.ts";
import { pasteBlock } from "./gridpaste.ts";
import type { PlaceInGrid } from "./gridplace.ts";
import { type GridWriting, isWritten } from "./gridwriting.ts";
import { headsIn } from "./sheetheads.ts";
import { textOf } from "./sheetpaste.ts";

/** What a grid copies from and pastes to. */
export interface ClipboardOn {
  readonly session: Session;
  readonly table: Table;
  /** The same with all of its columns: a block with heads is laid by them, whichever are shown. */
  readonly whole: Table;
  readonly lines: readonly Line[];
  readonly marked: ReadonlySet<string>;
  readonly standing: PlaceInGrid;
  readonly writing: GridWriting;
  readonly onWord: (word: Word) => void;
}

/** Copies the marked rows as a spreadsheet takes them, else the cell in hand. */
export function copyCells(event: ClipboardEvent, { lines, marked, standing, writing }: ClipboardOn): void {
  const { cell } = standing;
  if (!cell || writing.editing) return;
  event.preventDefault();
  const rows = lines.filter((line) => marked.has(line.id));
  const text =
    rows.length > 1 ? textOf(rows.map((line) => line.cells.map((one) => one?.shown ?? ""))) : cell.shown;
  event.clipboardData.setData("text/plain", text);
}

/** Lays a block of cells over the table from the cell in hand on, or puts a text into that cell. */
export function pasteCells(event: ClipboardEvent, on: ClipboardOn): void {
  const { session, table, whole, lines, writing, onWord } = on;
  const { cellRef, cell } = on.standing;
  if (!cellRef || !cell) return;
  const text = event.clipboardData.getData("text/plain");
  const block = tabbedRows(text);
  // An editor gives way to more than one cell; lines of text are meant for the cell itself.
  const intoText = writing.editing !== null && cell.entry.editor === "area";
  if (!intoText && isBlock(block))
    onWord(
      pasteBlock(session, headsIn(block[0] ?? [], whole.columns) ? whole : table, lines, cellRef, block),
    );
  else if (isWritten(cell) && !writing.editing && cell.fixed === null)
    writing.put(cell, text.replace(/\s+$/, ""));
  else return;
  event.preventDefault();
}
