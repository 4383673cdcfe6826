import {
  type ClipboardEvent,
  type CSSProperties,
  type KeyboardEvent,
  useEffect,
  useMemo,
  useRef,
  useState,
} from "react";
import { useAround } from "../context.ts";
import { counted } from "../words.ts";
import { widened, widenedLine } from "./bulk.ts";
import type { Faulty } from "./celleditor.tsx";
import { putDraft, sentence } from "./draft.ts";
import { type Extent, moved, onward, type Spot } from "./gridmoves.ts";
import { GridHead } from "./gridhead.tsx";
import { GridRow } from "./gridrow.tsx";
import type { Editing, GridHands, Place, Word } from "./gridhands.ts";
import { MANY_ROWS, ROW_PX, useRowWindow } from "./rowwindow.ts";
import { isBlock, pastedOver, rowsIn, textOf } from "./sheetpaste.ts";
import type { Cell, Line, Table } from "./table.ts";

/**
 * A table of cells with one place for the keyboard. Arrows move; Enter, F2 or typing edits; while editing, Enter puts
 * the value in and goes down, Tab goes on, Escape restores. A draft that the plan cannot take stays in its cell with
 * the reason.
 */
export function Grid(props: {
  readonly table: Table;
  readonly lines: readonly Line[];
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
  const { table, lines, place, onPlace, begin, onBegun, called, marked, onMarked, onWord, labelId, helpId } =
    props;
  const { desk } = useAround();
  const [editing, setEditing] = useState<Editing | null>(null);
  const [drafts, setDrafts] = useState<ReadonlyMap<string, Faulty>>(new Map());
  const box = useRef<HTMLTableElement>(null);
  // Set when the keyboard is to follow the place: after a move, never because something else was drawn.
  const follow = useRef(false);

  const outer = useRef<HTMLDivElement>(null);
  const columns = table.columns.length;
  const at = (spot: Spot): Cell | null => lines[spot.row]?.cells[spot.column] ?? null;
  const extent: Extent = {
    rows: lines.length,
    columns,
    pageRows: 10,
    has: (spot) => at(spot) !== null,
  };
  const row = place ? lines.findIndex((line) => line.id === place.line) : -1;
  const inPage = useRowWindow(outer, lines.length, row);
  const long = lines.length > MANY_ROWS;
  const spot: Spot | null = place && row >= 0 ? { row, column: place.column } : null;

  const draftOf = (cell: Cell): string =>
    drafts.get(cell.id)?.draft ?? cell.entry.draft(cell.value, desk.state.getState().plan);

  const go = (to: Spot): void => {
    const line = lines[to.row];
    if (!line) return;
    follow.current = true;
    onPlace({ line: line.id, column: to.column });
  };
  const edit = (cell: Cell, typed?: string): void => {
    if (cell.fixed !== null) return;
    if (cell.entry.editor === "tick" && typed === undefined) return flip(cell);
    const writes = cell.entry.editor === "line" || cell.entry.editor === "area";
    const begun = typed !== undefined && writes;
    setEditing({ cell: cell.id, first: begun ? typed : draftOf(cell), typed: begun });
  };
  const flip = (cell: Cell): void => put(cell, cell.value === true ? "" : "yes");
  const keep = (cell: Cell, faulty: Faulty | null): void =>
    setDrafts((now) => {
      const next = new Map(now);
      if (faulty) next.set(cell.id, faulty);
      else next.delete(cell.id);
      return next;
    });
  const mark = (from: number, to: number): void => {
    const low = Math.min(from, to);
    const ids = lines.slice(low, Math.max(from, to) + 1).map((line) => line.id);
    onMarked(new Set([...marked, ...ids]));
  };
  const put = (of: Cell, draft: string): void => {
    const cell = widened(table, lines, marked, of);
    const read = putDraft(desk, desk.state.getState().plan, cell, draft);
    keep(cell, read.ok ? null : { draft, fault: read.error });
  };

  const hands: GridHands = {
    press(cell, where, edits, marks) {
      const to = lines.findIndex((line) => line.id === where.line);
      if (marks === "along") mark(row < 0 ? to : row, to);
      else if (marks === "toggle") {
        const next = new Set(marked.size === 0 && row >= 0 ? [lines[row]!.id] : marked);
        if (!next.delete(where.line)) next.add(where.line);
        onMarked(next);
      } else if (!marked.has(where.line) && marked.size > 0) onMarked(new Set());
      follow.current = marks !== "alone";
      onPlace(where);
      if (edits) edit(cell);
    },
    enter(where) {
      onPlace(where);
    },
    done(how) {
      const cell = spot && at(spot);
      if (cell) keep(cell, null);
      setEditing(null);
      if (!spot || how === "elsewhere") return;
      follow.current = true;
      if (how === "down") go({ row: Math.min(spot.row + 1, lines.length - 1), column: spot.column });
      if (how === "next" || how === "back") {
        const next = onward(spot, how === "back", {
          ...extent,
          has: (one) => at(one)?.fixed === null,
        });
        const to = next && at(next);
        if (!next || !to) return;
        go(next);
        // A tick is edited as well here: the next Tab must go on from it and not out of the table.
        setEditing({ cell: to.id, first: draftOf(to), typed: false });
      }
    },
    cancel(cell) {
      keep(cell, null);
      setEditing(null);
      follow.current = true;
    },
    faulty(cell, faulty) {
      keep(cell, faulty);
      setEditing((now) => (now?.cell === cell.id ? null : now));
    },
  };
  const latest = useRef(hands);
  useEffect(() => {
    latest.current = hands;
  });
  const steady = useMemo<GridHands>(
    () => ({
      press: (...all) => latest.current.press(...all),
      enter: (where) => latest.current.enter(where),
      done: (how) => latest.current.done(how),
      cancel: (cell) => latest.current.cancel(cell),
      faulty: (cell, faulty) => latest.current.faulty(cell, faulty),
    }),
    [],
  );

  useEffect(() => {
    if (!follow.current || editing) return;
    follow.current = false;
    box.current?.querySelector<HTMLElement>('[data-cell][tabindex="0"]')?.focus();
  });
  // A table that opens at one of its lines shows it.
  useEffect(() => {
    box.current?.querySelector("tr[data-here]")?.scrollIntoView({ block: "center" });
  }, []);
  useEffect(() => {
    if (called > 0) box.current?.querySelector<HTMLElement>('[data-cell][tabindex="0"]')?.focus();
  }, [called]);
  useEffect(() => {
    if (begin === null) return;
    const cell = lines.flatMap((line) => line.cells).find((one) => one?.id === begin);
    if (!cell) return;
    onBegun();
    setEditing({
      cell: cell.id,
      first: cell.entry.draft(cell.value, desk.state.getState().plan),
      typed: false,
    });
  }, [begin, onBegun, lines, desk]);

  const keys = (event: KeyboardEvent): void => {
    const cell = spot && at(spot);
    if (!spot || !cell || editing || event.altKey) return;
    const ctrl = event.ctrlKey || event.metaKey;
    if (table.rows && ctrl && event.key.toLowerCase() === "a") {
      onMarked(new Set(lines.map((line) => line.id)));
      event.preventDefault();
      return;
    }
    if (event.key === "Escape" && marked.size > 0 && !drafts.has(cell.id)) {
      onMarked(new Set());
      event.preventDefault();
      return;
    }
    const to = moved(spot, event.key, ctrl, extent);
    if (to) {
      if (table.rows && event.shiftKey && to.row !== spot.row) mark(spot.row, to.row);
      go(to);
    } else if (event.key === "Enter" || event.key === "F2") edit(cell);
    else if (event.key === " " && cell.entry.editor === "tick" && cell.fixed === null) flip(cell);
    else if (event.key === "Escape" && drafts.has(cell.id)) keep(cell, null);
    else if ((event.key === "Delete" || event.key === "Backspace") && cell.fixed === null) clear(cell);
    else if (event.key.length === 1 && event.key !== " " && !ctrl && cell.entry.editor !== "tick") {
      edit(cell, event.key);
    } else return;
    event.preventDefault();
  };
  const clear = (cell: Cell): void => {
    if (cell.entry.editor === "tick") put(cell, "");
    else if (cell.guide.optional) put(cell, "");
    else edit(cell, "");
  };
  const copy = (event: ClipboardEvent): void => {
    const cell = spot && at(spot);
    if (!cell || editing) return;
    event.preventDefault();
    const rows = lines.filter((line) => marked.has(line.id));
    const text =
      rows.length > 1 ? textOf(rows.map((line) => line.cells.map((one) => one?.shown ?? ""))) : cell.shown;
    event.clipboardData.setData("text/plain", text);
  };
  const paste = (event: ClipboardEvent): void => {
    const cell = spot && at(spot);
    const block = rowsIn(event.clipboardData.getData("text/plain"));
    // An editor gives way to more than one cell; lines of text are meant for the cell itself.
    const open = editing !== null && cell?.entry.editor === "area";
    if (spot && cell && !open && isBlock(block)) {
      event.preventDefault();
      pasteBlock(spot, block);
      return;
    }
    const writes = cell?.entry.editor === "line" || cell?.entry.editor === "area";
    if (!cell || !writes || editing || cell.fixed !== null) return;
    event.preventDefault();
    put(cell, event.clipboardData.getData("text/plain").replace(/\s+$/, ""));
  };

  /** Lays a block of cells over the table from the place on, as one step; with a fault nothing of it. */
  const pasteBlock = (from: Spot, block: ReturnType<typeof rowsIn>): void => {
    const { plan } = desk.state.getState();
    const ids = lines.map((line) => line.id);
    const pasted = pastedOver(table, plan, ids, from, block);
    const refuse = (why: string): void => onWord({ refused: true, text: `Nothing was pasted. ${why}` });
    if (!pasted.ok) return refuse(pasted.error.join(" "));
    const { parts, cells, added, notes } = pasted.value;
    const what = `${counted(cells, "cell")}${added > 0 ? `, ${counted(added, "new row")}` : ""}`;
    const done = desk.edit(`Paste ${what}`, () => parts);
    if (done.ok) onWord({ refused: false, text: [`Pasted ${what}.`, ...notes].join(" ") });
    else refuse(sentence(done.error[0]?.message ?? "The plan cannot take it"));
  };

  const first = lines[0];
  const home = spot && at(spot) ? place : first ? { line: first.id, column: firstColumn(first) } : null;
  return (
    <div
      ref={outer}
      className="grid-box"
      style={{ "--first": roomOf(table.columns[0]?.width ?? 0) } as CSSProperties}
    >
      <table
        ref={box}
        role="grid"
        className="grid"
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
