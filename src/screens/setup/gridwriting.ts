import { useEffect, useState } from "react";
import type { Session } from "../../session/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import { keepDraft, keptIn } from "../kept.ts";
import { widened } from "./bulk.ts";
import type { KeptCell } from "../viewstate.ts";
import { firstDraft, putDraft } from "../fields/draft.ts";
import type { Editing } from "./gridhands.ts";
import { retryRow } from "../fields/retry.ts";
import type { Cell, Line, Table } from "../fields/table.ts";

/** The cell that is written in, and the drafts that the plan could not take. */
export interface GridWriting {
  readonly editing: Editing | null;
  readonly drafts: ReadonlyMap<string, KeptCell>;
  /** Begins to edit a cell, with what was typed, or flips a tick. A cell that does not apply is left alone. */
  edit(cell: Cell, typed?: string): void;
  /** Begins to edit a cell with what it holds, a tick as well. */
  open(cell: Cell): void;
  close(cell?: string): void;
  flip(cell: Cell): void;
  /** Empties a cell that may be empty; opens one that may not. */
  clear(cell: Cell): void;
  /** Puts a draft into the plan, or keeps it with the reason. */
  put(cell: Cell, draft: string): void;
  /** Keeps a draft that was refused; forgets it for null. */
  keep(cell: Cell, faulty: KeptCell | null): void;
  /** Tries again what the cell's row keeps, once something in it has been written: a begin may only go with its end. */
  retry(cell: Cell): void;
}

/** Writing in a table; what is put goes into the column of all marked rows when its own is marked. */
export function useGridWriting(
  session: Session,
  table: Table,
  lines: readonly Line[],
  marked: ReadonlySet<string>,
): GridWriting {
  const [editing, setEditing] = useState<Editing | null>(null);
  const { view, memory } = useApp();
  const slot = useSession((state) => state.slot);
  const keptCells = useView((state) => state.keptCells);
  const drafts = keptIn(keptCells, slot);
  const planNow = () => session.state.getState().plan;

  const keep = (cell: Cell, faulty: KeptCell | null): void =>
    keepDraft({ view, memory }, slot, cell.id, faulty);
  const retry = (of: Cell): void => {
    const row = lines.find((line) => line.cells.some((cell) => cell?.id === of.id));
    if (row) retryRow(session, { view, memory }, table, row.id);
  };
  // What was written in a row that is gone is gone with it.
  useEffect(() => {
    for (const id of table.rows ? drafts.keys() : []) {
      const row = id.slice(table.id.length + 1, id.lastIndexOf("/"));
      if (id.startsWith(`${table.id}/`) && table.line(planNow(), row) === null)
        keepDraft({ view, memory }, slot, id, null);
    }
  });
  const begin = (cell: Cell, typed: string | null): void => {
    const first = typed ?? drafts.get(cell.id)?.draft ?? firstDraft(cell, planNow());
    setEditing({ cell: cell.id, first, typed: typed !== null });
  };
  const put = (cell: Cell, draft: string): void => {
    const read = putDraft(session, planNow(), widened(table, lines, marked, cell), draft);
    keep(cell, read.ok ? null : { label: cell.label, draft, fault: read.error });
    retry(cell);
  };
  const flip = (cell: Cell): void => put(cell, cell.value === true ? "" : "yes");
  const edit = (cell: Cell, typed?: string): void => {
    if (cell.fixed !== null) return;
    if (cell.entry.editor === "tick" && typed === undefined) flip(cell);
    else begin(cell, typed !== undefined && isWritten(cell) ? typed : null);
  };
  return {
    editing,
    drafts,
    edit,
    flip,
    put,
    keep,
    retry,
    open: (cell) => begin(cell, null),
    close: (cell) => setEditing((now) => (cell === undefined || now?.cell === cell ? null : now)),
    clear(cell) {
      if (cell.entry.editor === "tick" || cell.guide.optional) put(cell, "");
      else edit(cell, "");
    },
  };
}

/** True for a cell that is written in letters, not chosen. */
export function isWritten({ entry }: Cell): boolean {
  return entry.editor === "line" || entry.editor === "area";
}

/** Opens the cell that is to be edited at once, as soon as it is among the lines. */
export function useBegunCell(
  begin: string | null,
  lines: readonly Line[],
  open: (cell: Cell) => void,
  onBegun: () => void,
): void {
  useEffect(() => {
    if (begin === null) return;
    const found = lines.flatMap((line) => line.cells).find((one) => one?.id === begin);
    if (!found) return;
    onBegun();
    open(found);
  }, [begin, onBegun, lines, open]);
}
