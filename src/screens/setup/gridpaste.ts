import type { Plan } from "../../plan/index.ts";
import type { Session } from "../../session/index.ts";
import { counted } from "../../words/index.ts";
import { sentence } from "../fields/draft.ts";
import type { Word } from "./gridhands.ts";
import type { CellRef } from "./gridmoves.ts";
import { pastedOver } from "./sheetpaste.ts";
import type { Line, Table } from "../fields/table.ts";

/** Lays a block of cells over the table from a place on, as one step; with a fault nothing of it. The answer says which. */
export function pasteBlock(
  session: Session,
  table: Table,
  lines: readonly Line[],
  from: CellRef,
  block: readonly (readonly string[])[],
): Word {
  const refused = (why: string): Word => ({ refused: true, text: `Nothing was pasted. ${why}` });
  const ids = lines.map((line) => line.id);
  const pasted = pastedOver(table, session.state.getState().plan, ids, from, block);
  if (!pasted.ok) return refused(pasted.error.join(" "));
  const { parts, cells, added, notes } = pasted.value;
  const what = `${counted(cells, "cell")}${added > 0 ? `, ${counted(added, "new row")}` : ""}`;
  const put = session.edit(`Paste ${what}`, () => parts);
  if (put.ok) return { refused: false, text: [`Pasted ${what}.`, ...notes].join(" ") };
  const [fault] = put.error;
  if (!fault) return refused("The plan cannot take it.");
  const asked = { ...session.state.getState().plan, ...parts };
  return refused(`${cellAt(table, asked, fault.path)}${sentence(fault.message)}`);
}

/** The cell at which a fault of the plan lies and what it would hold, before a colon; nothing where it lies at none. */
function cellAt(table: Table, plan: Plan, path: string): string {
  const cells = table.lines(plan).flatMap((line) => line.cells);
  const found = cells.find((one) => one?.path === path);
  return found ? `${found.label}, “${found.shown}”: ` : "";
}
