import {
  type ClipboardEvent,
  type CSSProperties,
  type KeyboardEvent,
  useEffect,
  useMemo,
  useRef,
} from "react";
import { tabbedRows } from "../../session/index.ts";
import { useAround } from "../context.ts";
import { widenedLine } from "./bulk.ts";
import { GridHead } from "./gridhead.tsx";
import type { GridHands, Place, Word } from "./gridhands.ts";
import { gridKey } from "./gridkeys.ts";
import { type Extent, onward, type CellRef } from "./gridmoves.ts";
import { pasteBlock } from "./gridpaste.ts";
import { GridRow } from "./gridrow.tsx";
import { isWritten, useGridWriting } from "./gridwriting.ts";
import { MANY_ROWS, ROW_PX, useRowWindow } from "./rowwindow.ts";
import { headsIn } from "./sheetheads.ts";
import { isBlock } from "../fields/entry.ts";
import { textOf } from "./sheetpaste.ts";
import type { Beside, Cell, Line, Table } from "../fields/table.ts";

/**
 * A table of cells with one place for the keyboard. Arrows move; Enter, F2 or typing edits; while editing, Enter puts
 * the value in and goes down, Tab goes on, Escape restores. A draft that the plan cannot take stays in its cell with
 * the reason.
 */
export function Grid(props: {
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
}) {
  const {
    table,
    whole,
    lines,
    beside,
    place,
    onPlace,
    begin,
    onBegun,
    called,
    marked,
    onMarked,
    onWord,
    labelId,
    helpId,
  } = props;
  const { desk } = useAround();
  const writing = useGridWriting(desk, table, lines, marked);
  const { editing, drafts } = writing;
  const box = useRef<HTMLTableElement>(null);
  const outer = useRef<HTMLDivElement>(null);
  // Set when the keyboard is to follow the place: after a move, never because something else was drawn.
  const follow = useRef(false);

  const columns = table.columns.length;
  const at = (spot: CellRef): Cell | null => lines[spot.row]?.cells[spot.column] ?? null;
  const extent: Extent = {
    rows: lines.length,
    columns,
    pageRows: 10,
    has: (spot) => at(spot) !== null,
  };
  const row = place ? lines.findIndex((line) => line.id === place.line) : -1;
  const inPage = useRowWindow(outer, lines.length, row);
  const long = lines.length > MANY_ROWS;
  const spot: CellRef | null = place && row >= 0 ? { row, column: place.column } : null;
  const cell = spot && at(spot);

  const go = (to: CellRef): void => {
    const line = lines[to.row];
    if (!line) return;
    follow.current = true;
    onPlace({ line: line.id, column: to.column });
  };
  const mark = (from: number, to: number): void => {
    const low = Math.min(from, to);
    const ids = lines.slice(low, Math.max(from, to) + 1).map((line) => line.id);
    onMarked(new Set([...marked, ...ids]));
  };
  const markByPress = (line: string, how: "alone" | "along" | "toggle"): void => {
    const to = lines.findIndex((one) => one.id === line);
    if (how === "along") mark(row < 0 ? to : row, to);
    else if (how === "toggle") {
      const next = new Set(marked.size === 0 && row >= 0 ? [lines[row]!.id] : marked);
      if (!next.delete(line)) next.add(line);
      onMarked(next);
    } else if (!marked.has(line) && marked.size > 0) onMarked(new Set());
  };
  /** Goes on from an edited cell by Tab: the next one that can be written in is edited as well. */
  const editOnward = (from: CellRef, back: boolean): void => {
    const next = onward(from, back, { ...extent, has: (one) => at(one)?.fixed === null });
    const to = next && at(next);
    if (!next || !to) return;
    go(next);
    // A tick too: the next Tab must go on from it and not out of the table.
    writing.open(to);
  };

  const steady = useSteadyHands({
    press(of, where, edits, marks) {
      markByPress(where.line, marks);
      follow.current = marks !== "alone";
      onPlace(where);
      if (edits) writing.edit(of);
    },
    enter: onPlace,
    done(how) {
      if (cell) {
        writing.keep(cell, null);
        writing.retry(cell);
      }
      writing.close();
      if (!spot || how === "elsewhere") return;
      follow.current = true;
      if (how === "down") go({ row: Math.min(spot.row + 1, lines.length - 1), column: spot.column });
      else if (how === "next" || how === "back") editOnward(spot, how === "back");
    },
    cancel(of) {
      writing.keep(of, null);
      writing.close();
      follow.current = true;
    },
    faulty(of, faulty, how) {
      writing.keep(of, faulty);
      writing.retry(of);
      writing.close(of.id);
      if (!spot || (how !== "next" && how !== "back")) return;
      follow.current = true;
      editOnward(spot, how === "back");
    },
  });

  useEffect(() => {
    if (!follow.current || editing) return;
    follow.current = false;
    focusPlace(box.current);
  });
  // A table that opens at one of its lines shows it.
  useEffect(() => {
    box.current?.querySelector("tr[data-here]")?.scrollIntoView({ block: "center" });
  }, []);
  useEffect(() => {
    if (called > 0) focusPlace(box.current);
  }, [called]);
  const { open } = writing;
  useEffect(() => {
    if (begin === null) return;
    const found = lines.flatMap((line) => line.cells).find((one) => one?.id === begin);
    if (!found) return;
    onBegun();
    open(found);
  }, [begin, onBegun, lines, open]);

  const keys = (event: KeyboardEvent): void => {
    if (!spot || !cell || editing) return;
    const used = gridKey(event, {
      spot,
      cell,
      extent,
      writing,
      go,
      mark,
      marks: table.rows !== null,
      anyMarked: marked.size > 0,
      markAll: () => onMarked(new Set(lines.map((line) => line.id))),
      unmark: () => onMarked(new Set()),
    });
    if (used) event.preventDefault();
  };
  const copy = (event: ClipboardEvent): void => {
    if (!cell || editing) return;
    event.preventDefault();
    const rows = lines.filter((line) => marked.has(line.id));
    const text =
      rows.length > 1 ? textOf(rows.map((line) => line.cells.map((one) => one?.shown ?? ""))) : cell.shown;
    event.clipboardData.setData("text/plain", text);
  };
  const paste = (event: ClipboardEvent): void => {
    if (!spot || !cell) return;
    const text = event.clipboardData.getData("text/plain");
    const block = tabbedRows(text);
    // An editor gives way to more than one cell; lines of text are meant for the cell itself.
    const intoText = editing !== null && cell.entry.editor === "area";
    if (!intoText && isBlock(block))
      onWord(pasteBlock(desk, headsIn(block[0] ?? [], whole.columns) ? whole : table, lines, spot, block));
    else if (isWritten(cell) && !editing && cell.fixed === null) writing.put(cell, text.replace(/\s+$/, ""));
    else return;
    event.preventDefault();
  };

  const first = lines[0];
  const home = cell ? place : first ? { line: first.id, column: firstColumn(first) } : null;
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
        aria-labelledby={labelId}
        aria-describedby={helpId}
        onKeyDown={keys}
        onCopy={copy}
        onPaste={paste}
      >
        {table.rows && (
          <colgroup>
            {table.columns.map(({ width }, index) => (
              <col key={index} style={{ width: roomOf(width) }} />
            ))}
          </colgroup>
        )}
        <GridHead table={table} />
        <tbody>
          {inPage.first > 0 && <Gap rows={inPage.first} columns={columns} />}
          {lines.slice(inPage.first, inPage.end).map((line, i) => (
            <GridRow
              key={line.id}
              line={
                editing && marked.has(line.id) ? widenedLine(table, lines, marked, line, editing.cell) : line
              }
              marked={marked.has(line.id)}
              rowIndex={long ? inPage.first + i + 2 : null}
              columns={table.columns}
              named={table.rows === null}
              beside={beside ? (beside.get(line.id) ?? NOTHING_BESIDE) : null}
              column={home?.line === line.id ? home.column : -1}
              here={place?.line === line.id}
              editing={editing && line.cells.some((cell) => cell?.id === editing.cell) ? editing : null}
              drafts={drafts}
              hands={steady}
            />
          ))}
          {inPage.end < lines.length && <Gap rows={lines.length - inPage.end} columns={columns} />}
        </tbody>
      </table>
    </div>
  );
}

const NOTHING_BESIDE: Beside = { text: "", state: "idle" };

/** The same hands all along, which do what the given ones do now. */
function useSteadyHands(hands: GridHands): GridHands {
  const latest = useRef(hands);
  useEffect(() => {
    latest.current = hands;
  });
  return useMemo<GridHands>(
    () => ({
      press: (...all) => latest.current.press(...all),
      enter: (where) => latest.current.enter(where),
      done: (how) => latest.current.done(how),
      cancel: (cell) => latest.current.cancel(cell),
      faulty: (cell, faulty, how) => latest.current.faulty(cell, faulty, how),
    }),
    [],
  );
}

function focusPlace(table: HTMLTableElement | null): void {
  table?.querySelector<HTMLElement>('[data-cell][tabindex="0"]')?.focus();
}

/** Room for rows that are not in the page. */
function Gap({ rows, columns }: { readonly rows: number; readonly columns: number }) {
  return (
    <tr aria-hidden="true" className="grid-gap">
      <td colSpan={columns} style={{ height: rows * ROW_PX }} />
    </tr>
  );
}

/** The width of a column for so many digits. */
function roomOf(width: number): string {
  return `calc(${width}ch + 1.25rem)`;
}

function firstColumn(line: Line): number {
  return Math.max(
    0,
    line.cells.findIndex((cell) => cell !== null),
  );
}
