import { useMemo, useState } from "react";
import type { Plan } from "../../plan/index.ts";
import { useApp } from "../context.ts";
import type { Column, Line, Table } from "../fields/table.ts";
import { RowForm } from "./rowform.tsx";
import type { RowSearch } from "./rowsearch.ts";
import type { TablePlace } from "./tableplace.ts";

/** With more columns than this a table has its rows as a form beside it. */
const WIDE = 7;

/** The form beside a wide table. */
export interface FormSide {
  /** True where the table is wide enough for one. */
  readonly offered: boolean;
  readonly shown: boolean;
  /** The row that it shows with all columns; null while there is none to show. */
  readonly line: Line | null;
  show(shown: boolean): void;
}

/** A form of the row `id`; whether it is shown is kept for the next time, for all tables alike. */
export function useFormSide(whole: Table, plan: Plan, id: string | null): FormSide {
  const { memory } = useApp();
  const [shown, setShown] = useState(() => memory.get("setup-form") === "shown");
  const offered = whole.columns.length > WIDE;
  const line = useMemo(
    () => (shown && id !== null && offered ? whole.line(plan, id) : null),
    [shown, id, offered, whole, plan],
  );
  const show = (next: boolean): void => {
    setShown(next);
    memory.set("setup-form", next ? "shown" : "");
  };
  return { offered, shown, line, show };
}

/** All fields of the row in hand, and steps to the rows beside it. */
export function FormBeside(props: {
  readonly whole: Table;
  /** The columns that are looked at: their groups stand first. */
  readonly columns: readonly Column[];
  readonly line: Line;
  readonly search: RowSearch;
  readonly at: TablePlace;
  readonly onClose: () => void;
}) {
  const { whole, columns, line, search, at, onClose } = props;
  const { shown, lacks } = search;
  const index = shown.findIndex(({ id }) => id === line.id);
  return (
    <RowForm
      table={whole}
      line={line}
      first={columns.map(({ group }) => group)}
      at={index}
      of={shown.length}
      lacks={lacks.filter(({ rows }) => rows.has(line.id)).map(({ words }) => words)}
      onStep={(by) => {
        const next = shown[index + by];
        if (next) at.take({ line: next.id, column: at.place?.column ?? 0 });
      }}
      onClose={onClose}
    />
  );
}
