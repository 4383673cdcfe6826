import { useMemo } from "react";
import type { KeptCell } from "../viewstate.ts";
import type { Beside, Line, Table } from "../fields/table.ts";
import { widenedLine } from "./bulk.ts";
import { decimalsOf } from "./decimals.ts";
import type { Editing, GridHands, Place } from "./gridhands.ts";
import { GridRow } from "./gridrow.tsx";
import { MANY_ROWS, type RowWindow } from "./rowwindow.ts";

/** The rows of a grid that are in the page, and room for the others. */
export function GridBody(props: {
  readonly table: Table;
  readonly lines: readonly Line[];
  readonly inPage: RowWindow;
  readonly beside: ReadonlyMap<string, Beside> | null;
  readonly place: Place | null;
  /** The one cell that the keyboard comes to. */
  readonly home: Place | null;
  readonly marked: ReadonlySet<string>;
  readonly editing: Editing | null;
  readonly drafts: ReadonlyMap<string, KeptCell>;
  readonly hands: GridHands;
}) {
  const { table, lines, inPage, beside, place, home, marked, editing, drafts, hands } = props;
  const columns = table.columns.length;
  const long = lines.length > MANY_ROWS;
  const decimals = useMemo(
    () => decimalsOf(table.rows === null ? [] : lines, columns),
    [table.rows, lines, columns],
  );
  return (
    <tbody>
      {inPage.first > 0 && <Gap heightPx={inPage.first * inPage.rowPx} columns={columns} />}
      {lines.slice(inPage.first, inPage.end).map((line, i) => (
        <GridRow
          key={line.id}
          line={editing && marked.has(line.id) ? widenedLine(table, lines, marked, line, editing.cell) : line}
          marked={marked.has(line.id)}
          rowIndex={long ? inPage.first + i + 2 : null}
          columns={table.columns}
          decimals={decimals}
          named={table.rows === null}
          beside={beside ? (beside.get(line.id) ?? NOTHING_BESIDE) : null}
          column={home?.line === line.id ? home.column : -1}
          here={place?.line === line.id}
          editing={editing && line.cells.some((cell) => cell?.id === editing.cell) ? editing : null}
          drafts={drafts}
          hands={hands}
        />
      ))}
      {inPage.end < lines.length && (
        <Gap heightPx={(lines.length - inPage.end) * inPage.rowPx} columns={columns} />
      )}
    </tbody>
  );
}

const NOTHING_BESIDE: Beside = { text: "", state: "idle" };

/** Room for rows that are not in the page. */
function Gap({ heightPx, columns }: { readonly heightPx: number; readonly columns: number }) {
  return (
    <tr aria-hidden="true" className="grid-gap">
      <td colSpan={columns} style={{ height: heightPx }} />
    </tr>
  );
}
