import { type CSSProperties, type KeyboardEvent, useRef } from "react";
import { useApp } from "../context.ts";
import type { Beside, Column, Line, Table } from "../fields/table.ts";
import { GridBody } from "./gridbody.tsx";
import { type ClipboardOn, copyCells, pasteCells } from "./gridclipboard.ts";
import { useGridFocus } from "./gridfocus.ts";
import { GridHead } from "./gridhead.tsx";
import type { Place, Word } from "./gridhands.ts";
import { gridKey } from "./gridkeys.ts";
import { rowMarks } from "./gridmarks.ts";
import type { CellRef } from "./gridmoves.ts";
import { homeOf, placeInGrid } from "./gridplace.ts";
import { useBegunCell, useGridWriting } from "./gridwriting.ts";
import { MANY_ROWS, useRowWindow } from "./rowwindow.ts";
import { useGridHands } from "./steadyhands.ts";

interface GridProps {
  readonly table: Table;
  /** The same with all of its columns: a block with heads is laid by them, whichever are shown. */
  readonly whole: Table;
  readonly lines: readonly Line[];
  /** What stands behind the first cell of a line, by its id; null for a table without such words. */
  readonly beside: ReadonlyMap<string, Beside> | null;
  readonly place: Place | null;
  readonly onPlace: (place: Place) => void;
  /** A cell to begin editing at once, for instance the name of a new row. */
  readonly begin: string | null;
  /** Said once it has begun, so that it does not begin again when the table comes back. */
  readonly onBegun: () => void;
  /** Counts the times that the keyboard was sent to the place from outside. */
  readonly called: number;
  /** The rows that are written together. */
  readonly marked: ReadonlySet<string>;
  readonly onMarked: (marked: ReadonlySet<string>) => void;
  /** Says what was pasted, or why nothing was. */
  readonly onWord: (word: Word) => void;
  readonly labelId: string;
  readonly helpId: string;
}

/**
 * A table of cells with one place for the keyboard. Arrows move; Enter, F2 or typing edits; while editing, Enter puts
 * the value in and goes down, Tab goes on, Escape restores. A draft that the plan cannot take stays in its cell with
 * the reason.
 */
export function Grid(props: GridProps) {
  const { table, whole, lines, place, onPlace, marked, onMarked } = props;
  const { session } = useApp();
  const writing = useGridWriting(session, table, lines, marked);
  const { editing } = writing;
  const box = useRef<HTMLTableElement>(null);
  const outer = useRef<HTMLDivElement>(null);
  const follow = useRef(false);
  const standing = placeInGrid(lines, table.columns.length, place);
  const { cellRef, cell, extent } = standing;
  const inPage = useRowWindow(outer, lines.length, standing.row);
  const marks = rowMarks(lines, standing.row, marked, onMarked);
  const go = (to: CellRef): void => {
    const line = lines[to.row];
    if (!line) return;
    follow.current = true;
    onPlace({ line: line.id, column: to.column });
  };
  const hands = useGridHands({ lines, standing, writing, marks, follow, go, onPlace });
  useGridFocus(box, follow, editing !== null, props.called);
  useBegunCell(props.begin, lines, writing.open, props.onBegun);

  const keys = (event: KeyboardEvent): void => {
    if (!cellRef || !cell || editing) return;
    const marking = { marks, canMark: table.rows !== null, anyMarked: marked.size > 0 };
    if (gridKey(event, { cellRef, cell, extent, writing, go, ...marking })) event.preventDefault();
  };
  const clip: ClipboardOn = { session, table, whole, lines, marked, standing, writing, onWord: props.onWord };
  const long = lines.length > MANY_ROWS;
  return (
    <div
      ref={outer}
      className="grid-box"
      style={{ "--first": roomOf(table.columns[0]?.width ?? 0) } as CSSProperties}
    >
      <table
        ref={box}
        role="grid"
        className="setup-grid"
        data-sheet={table.rows === null ? "" : undefined}
        data-long={long ? "" : undefined}
        aria-rowcount={long ? lines.length + 1 : undefined}
        aria-multiselectable={table.rows ? true : undefined}
        aria-labelledby={props.labelId}
        aria-describedby={props.helpId}
        onKeyDown={keys}
        onCopy={(event) => copyCells(event, clip)}
        onPaste={(event) => pasteCells(event, clip)}
      >
        {table.rows && <ColumnWidths columns={table.columns} />}
        <GridHead table={table} />
        <GridBody
          {...{ table, lines, inPage, place, marked, editing, hands }}
          beside={props.beside}
          home={homeOf(lines, place, standing)}
          drafts={writing.drafts}
        />
      </table>
    </div>
  );
}

function ColumnWidths({ columns }: { readonly columns: readonly Column[] }) {
  return (
    <colgroup>
      {columns.map(({ width }, index) => (
        <col key={index} style={{ width: roomOf(width) }} />
      ))}
    </colgroup>
  );
}

/** The width of a column for so many digits. */
function roomOf(width: number): string {
  return `calc(${width}ch + 1.25rem)`;
}
