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
  return put.ok
    ? { refused: false, text: [`Pasted ${what}.`, ...notes].join(" ") }
    : refused(sentence(put.error[0]?.message ?? "The plan cannot take it"));
}
