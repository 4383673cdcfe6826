import type { RefObject } from "react";
import type { Plan } from "../../plan/index.ts";
import type { Line, Table } from "../fields/table.ts";
import type { FormSide } from "./formside.tsx";
import type { RowSearch } from "./rowsearch.ts";
import { RowsWork } from "./rowswork.tsx";
import type { TablePlace } from "./tableplace.ts";
import type { TableRows } from "./tablerows.ts";

/** From so many rows on there is a field to find some. */
const MANY = 15;

/** A table's title, what it is for, and what can be done with its rows. */
export function TableHead(props: {
  readonly table: Table;
  readonly plan: Plan;
  readonly lines: readonly Line[];
  readonly search: RowSearch;
  readonly at: TablePlace;
  readonly form: FormSide;
  readonly work: TableRows;
  /** The button that adds a row. */
  readonly adds: RefObject<HTMLButtonElement | null>;
  readonly titleId: string;
}) {
  const { table, plan, lines, search, at, form, work, adds, titleId } = props;
  const { rows } = table;
  return (
    <header>
      <h2 id={titleId}>{table.title}</h2>
      {rows && <span className="note">{lines.length}</span>}
      <p className="note">{table.intro}</p>
      {rows && (
        <RowsWork rows={rows} plan={plan} empty={lines.length === 0} line={at.line} work={work} adds={adds}>
          {form.offered && lines.length > 0 && <FormButton form={form} at={at} first={search.shown[0]} />}
          {lines.length > MANY && (
            <input
              type="search"
              aria-label={`Find in ${table.title.toLowerCase()}`}
              placeholder="Find"
              value={search.wanted}
              onChange={(event) => search.want(event.target.value)}
            />
          )}
        </RowsWork>
      )}
    </header>
  );
}

function FormButton(props: {
  readonly form: FormSide;
  readonly at: TablePlace;
  readonly first: Line | undefined;
}) {
  const { form, at, first } = props;
  return (
    <button
      type="button"
      aria-pressed={form.shown}
      onClick={() => {
        form.show(!form.shown);
        // A form is of some row: the first where none is chosen.
        if (!form.shown && !at.line && first) at.take({ line: first.id, column: 0 });
      }}
    >
      Form
    </button>
  );
}
