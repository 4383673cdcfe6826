import type { Line, Table } from "../fields/table.ts";
import { FormField } from "../fields/formfield.tsx";

/** All fields of one row beside its table, by the groups of their columns; `line` is of the whole table. */
export function RowForm(props: { readonly table: Table; readonly line: Line; readonly onClose: () => void }) {
  const { table, line, onClose } = props;
  const groups = [...new Set(table.columns.map(({ group }) => group))];
  return (
    <aside className="row-form" aria-label={`All fields of ${line.name}`}>
      <header>
        <h3 title={line.name}>{line.name}</h3>
        <button type="button" className="quiet" aria-label="Close the form" onClick={onClose}>
          ×
        </button>
      </header>
      {groups.map((group) => (
        <section key={group} aria-label={group === "" ? "Name" : group}>
          {group !== "" && <h4>{group}</h4>}
          {table.columns.map((column, index) => {
            const cell = column.group === group ? line.cells[index] : null;
            return cell ? (
              <FormField key={cell.id} table={table} row={line.id} cell={cell} label={column.label} />
            ) : null;
          })}
        </section>
      ))}
    </aside>
  );
}
