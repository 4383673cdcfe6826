import { useState } from "react";
import type { Desk } from "../../session/index.ts";
import { widened } from "./bulk.ts";
import type { Faulty } from "./celleditor.tsx";
import { putDraft } from "./draft.ts";
import type { Editing } from "./gridhands.ts";
import type { Cell, Line, Table } from "./table.ts";

/** The cell that is written in, and the drafts that the plan could not take. */
export interface GridWriting {
  readonly editing: Editing | null;
  readonly drafts: ReadonlyMap<string, Faulty>;
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
  keep(cell: Cell, faulty: Faulty | null): void;
}

/** Writing in a table; what is put goes into the column of all marked rows when its own is marked. */
export function useGridWriting(
  desk: Desk,
  table: Table,
  lines: readonly Line[],
  marked: ReadonlySet<string>,
): GridWriting {
  const [editing, setEditing] = useState<Editing | null>(null);
  const [drafts, setDrafts] = useState<ReadonlyMap<string, Faulty>>(new Map());
  const planNow = () => desk.state.getState().plan;

  const keep = (cell: Cell, faulty: Faulty | null): void =>
    setDrafts((now) => {
      const next = new Map(now);
      if (faulty) next.set(cell.id, faulty);
      else next.delete(cell.id);
      return next;
    });
  const begin = (cell: Cell, typed: string | null): void => {
    const first = typed ?? drafts.get(cell.id)?.draft ?? cell.entry.draft(cell.value, planNow());
    setEditing({ cell: cell.id, first, typed: typed !== null });
  };
  const put = (cell: Cell, draft: string): void => {
    const read = putDraft(desk, planNow(), widened(table, lines, marked, cell), draft);
    keep(cell, read.ok ? null : { draft, fault: read.error });
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
