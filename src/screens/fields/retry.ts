import type { Session } from "../../session/index.ts";
import { keepDraft, type Keeping, keptIn } from "../kept.ts";
import { putTogether } from "./draft.ts";
import type { Table } from "./table.ts";

/**
 * Tries again what a row keeps that the plan did not take, once something in it has been written: all of it together, else each
 * alone. A begin may only go with its end.
 */
export function retryRow(session: Session, keeping: Keeping, table: Table, row: string): void {
  const { plan, slot } = session.state.getState();
  const kept = keptIn(keeping.view.getState().keptCells, slot);
  const all = (table.line(plan, row)?.cells ?? []).flatMap((cell) => {
    const draft = cell ? kept.get(cell.id)?.draft : undefined;
    return cell && draft !== undefined && draft !== "" ? [{ cell, draft }] : [];
  });
  for (const some of [all, ...(all.length > 1 ? all.map((one) => [one]) : [])])
    if (some.length > 0 && putTogether(session, session.state.getState().plan, some))
      for (const { cell } of some) keepDraft(keeping, slot, cell.id, null);
}
