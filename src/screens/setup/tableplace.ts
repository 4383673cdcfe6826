import { type RefObject, useCallback, useEffect, useRef, useState } from "react";
import type { Plan } from "../../plan/index.ts";
import { useApp, useView } from "../context.ts";
import type { Cell, Line, Table } from "../fields/table.ts";
import type { Place } from "./gridhands.ts";
import type { ColumnChoice } from "./tablecolumns.ts";

/** Where the keyboard stands in a table. */
export interface TablePlace {
  readonly place: Place | null;
  /** Counts the times that the keyboard was sent to it. */
  readonly called: number;
  /** The line's index in the table; -1 for none. */
  readonly index: number;
  readonly line: Line | null;
  readonly cell: Cell | null;
  /** Takes another place, without the keyboard. */
  take(next: Place | null): void;
  /** Brings the keyboard to the place. */
  call(): void;
  /** The cell to begin editing at once; null for none. */
  readonly begin: string | null;
  /** Takes the first place of a line and begins editing its cell `cell` there. */
  beginAt(line: string, cell: string): void;
  /** Said once it has begun, so that it does not begin again when the table comes back. */
  begun(): void;
}

/** The place in a table of these lines; at first on the line `from`. */
export function useTablePlace(lines: readonly Line[], from: string | null): TablePlace {
  const [place, setPlace] = useState<Place | null>(from === null ? null : { line: from, column: 0 });
  const [called, setCalled] = useState(0);
  const take = useCallback(
    (next: Place | null) =>
      setPlace((now) => (now?.line === next?.line && now?.column === next?.column ? now : next)),
    [],
  );
  const call = useCallback(() => setCalled((times) => times + 1), []);
  const [begin, setBegin] = useState<string | null>(null);
  const begun = useCallback(() => setBegin(null), []);
  const beginAt = (line: string, cell: string): void => {
    setPlace({ line, column: 0 });
    setBegin(cell);
  };
  const index = place ? lines.findIndex((one) => one.id === place.line) : -1;
  const line = lines[index] ?? null;
  const cell = line && place ? (line.cells[place.column] ?? null) : null;
  return { place, called, index, line, cell, take, call, begin, beginAt, begun };
}

/** Goes to the cell that another screen leads to, with whatever must be shown for that. */
export function useLedPlace(
  whole: Table,
  plan: Plan,
  { table, showAll }: ColumnChoice,
  { take, call }: TablePlace,
  showAllRows: () => void,
): void {
  const { view } = useApp();
  const led = useView((state) => (state.setupCell?.table === whole.id ? state.setupCell : null));
  useEffect(() => {
    if (!led) return;
    view.setState({ setupCell: null });
    // In a table of single fields a line is found by its field.
    const toLine =
      whole.line(plan, led.row) ??
      whole.lines(plan).find(({ cells }) => cells.some((one) => one?.path === `${whole.id}.${led.field}`));
    const cells = toLine?.cells ?? [];
    const to =
      typeof led.field === "number"
        ? led.field
        : cells.findIndex((one) => one?.path.endsWith(`.${led.field}`));
    const column = table.columns.indexOf(whole.columns[to] ?? table.columns[0]!);
    showAllRows();
    // A column that is not among those shown brings all of them.
    if (column < 0) showAll();
    take({ line: toLine?.id ?? led.row, column: column < 0 ? to : column });
    call();
  }, [led, view, whole, table, plan, showAll, showAllRows, take, call]);
}

/** When undo takes the row away in which the keyboard stood, the next one takes it, or what adds the first. */
export function useUndonePlace(
  lines: readonly Line[],
  { index, place, take, call }: TablePlace,
  adds: RefObject<HTMLElement | null>,
): void {
  const stood = useRef(-1);
  useEffect(() => {
    if (index >= 0) stood.current = index;
    if (!place || index >= 0 || document.activeElement !== document.body) return;
    const next = lines[Math.min(stood.current, lines.length - 1)];
    take(next ? { line: next.id, column: place.column } : null);
    if (next) call();
    else adds.current?.focus();
  }, [index, lines, place, take, call, adds]);
}
