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
import type { Faulty } from "./celleditor.tsx";
import { putDraft } from "./draft.ts";
import { type Extent, moved, onward, type Spot } from "./gridmoves.ts";
import { GridHead } from "./gridhead.tsx";
import { GridRow } from "./gridrow.tsx";
import type { Editing, GridHands, Place } from "./gridhands.ts";
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
  /** Counts the times that the keyboard was sent to the place from outside. */
  readonly called: number;
  readonly labelId: string;
  readonly helpId: string;
}) {
  const { table, lines, place, onPlace, begin, called, labelId, helpId } = props;
  const { desk } = useAround();
  const [editing, setEditing] = useState<Editing | null>(null);
  const [drafts, setDrafts] = useState<ReadonlyMap<string, Faulty>>(new Map());
  const box = useRef<HTMLTableElement>(null);
  // Set when the keyboard is to follow the place: after a move, never because something else was drawn.
  const follow = useRef(false);

  const columns = table.columns.length;
  const at = (spot: Spot): Cell | null => lines[spot.row]?.cells[spot.column] ?? null;
  const extent: Extent = {
    rows: lines.length,
    columns,
    pageRows: 10,
    has: (spot) => at(spot) !== null,
  };
  const row = place ? lines.findIndex((line) => line.id === place.line) : -1;
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
  const put = (cell: Cell, draft: string): void => {
    const read = putDraft(desk, desk.state.getState().plan, cell, draft);
    keep(cell, read.ok ? null : { draft, fault: read.error });
  };

  const hands: GridHands = {
    press(cell, where, edits) {
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
        const next = onward(spot, how === "back", extent);
        if (!next) return;
        go(next);
        const to = at(next);
        if (to && to.entry.editor !== "tick") edit(to);
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
  const begun = useRef<string | null>(null);
  useEffect(() => {
    if (begin === null || begun.current === begin) return;
    const cell = lines.flatMap((line) => line.cells).find((one) => one?.id === begin);
    if (!cell) return;
    begun.current = begin;
    setEditing({
      cell: cell.id,
      first: cell.entry.draft(cell.value, desk.state.getState().plan),
      typed: false,
    });
  }, [begin, lines, desk]);

  const keys = (event: KeyboardEvent): void => {
    const cell = spot && at(spot);
    if (!spot || !cell || editing || event.altKey) return;
    const ctrl = event.ctrlKey || event.metaKey;
    const to = moved(spot, event.key, ctrl, extent);
    if (to) go(to);
    else if (event.key === "Enter" || event.key === "F2") edit(cell);
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
    event.clipboardData.setData("text/plain", cell.shown);
  };
  const paste = (event: ClipboardEvent): void => {
    const cell = spot && at(spot);
    const writes = cell?.entry.editor === "line" || cell?.entry.editor === "area";
    if (!cell || !writes || editing || cell.fixed !== null) return;
    event.preventDefault();
    put(cell, event.clipboardData.getData("text/plain").replace(/\s+$/, ""));
  };

  const first = lines[0];
  const home = spot && at(spot) ? place : first ? { line: first.id, column: firstColumn(first) } : null;
  return (
    <div className="grid-box" style={{ "--first": roomOf(table.columns[0]?.width ?? 0) } as CSSProperties}>
      <table
        ref={box}
        role="grid"
        className="grid"
        data-sheet={table.rows === null ? "" : undefined}
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
          {lines.map((line) => (
            <GridRow
              key={line.id}
              line={line}
              columns={table.columns}
              named={table.rows === null}
              column={home?.line === line.id ? home.column : -1}
              here={place?.line === line.id}
              editing={editing && line.cells.some((cell) => cell?.id === editing.cell) ? editing : null}
              drafts={drafts}
              hands={steady}
            />
          ))}
        </tbody>
      </table>
    </div>
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
