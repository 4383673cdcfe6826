import { useState } from "react";
import type { Plan } from "../../plan/index.ts";
import type { Session, Removal } from "../../session/index.ts";
import { sentence } from "../fields/draft.ts";
import type { Word } from "./gridhands.ts";
import type { Line, NewRow, Table } from "../fields/table.ts";

/** Adding and removing rows of a table, each as one step of the history. */
export interface TableRows {
  /** Puts a row that was made; `step` names it in the history. */
  add(made: NewRow, step: (name: string) => string): void;
  /** Removes a line, or asks first where something hangs on it. */
  remove(line: Line): void;
  /** A removal that is asked about; null while none is. */
  readonly pending: { readonly line: Line; readonly removal: Removal } | null;
  /** Removes what is asked about. */
  confirm(): void;
  /** Does what is offered instead of the removal. */
  doInstead(): void;
  keep(): void;
}

/** What the view does when a step went through. */
export interface RowsView {
  /** Null when there is nothing to say. */
  word(word: Word | null): void;
  added(line: string): void;
  /** `next` is the line that takes the removed one's place. */
  removed(next: Line | null): void;
  /** Something else was done and the keyboard goes back to the table. */
  returned(): void;
}

export function useTableRows(
  session: Session,
  table: Table,
  plan: Plan,
  lines: readonly Line[],
  view: RowsView,
): TableRows {
  const [pending, setPending] = useState<TableRows["pending"]>(null);
  /** One step; true when the plan could take it, else the reason is said. */
  const took = (step: string, change: (plan: Plan) => Partial<Plan>): boolean => {
    const put = session.edit(step, change);
    view.word(
      put.ok ? null : { refused: true, text: sentence(put.error[0]?.message ?? "The plan cannot take it.") },
    );
    return put.ok;
  };
  const finish = (line: Line, removal: Removal): void => {
    const index = lines.findIndex((one) => one.id === line.id);
    const next = lines[index + 1] ?? lines[index - 1] ?? null;
    setPending(null);
    if (took(`Remove ${line.name}`, removal.change)) view.removed(next);
  };
  return {
    pending,
    add(made, step) {
      if (typeof made === "string") return view.word({ refused: true, text: made });
      const name = table.lines({ ...plan, ...made.change(plan) }).find((one) => one.id === made.id)?.name;
      if (took(step(name ?? ""), made.change)) view.added(made.id);
    },
    remove(line) {
      const removal = table.rows?.remove(plan, line.id);
      if (!removal) return;
      if (removal.hindrances.length + removal.consequences.length > 0) setPending({ line, removal });
      else finish(line, removal);
    },
    confirm() {
      if (pending) finish(pending.line, pending.removal);
    },
    doInstead() {
      const instead = pending?.removal.instead;
      if (!pending || !instead) return;
      setPending(null);
      if (took(`${pending.line.name}: ${instead.words}`, instead.change)) view.returned();
    },
    keep: () => setPending(null),
  };
}
