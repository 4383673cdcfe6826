import { FormField } from "../fields/formfield.tsx";
import type { Line, Table } from "../fields/table.ts";

/** All fields of one row beside its table, by the groups of their columns; `line` is of the whole table. */
export function RowForm(props: {
  readonly table: Table;
  readonly line: Line;
  /** The groups that stand first: those of the columns that are looked at. */
  readonly first: readonly string[];
  /** Its place among the rows that are shown, from 0, and how many these are. */
  readonly at: number;
  readonly of: number;
  /** What the row lacks, in words. */
  readonly lacks: readonly string[];
  /** Goes to the next row, or the one before. */
  readonly onStep: (by: 1 | -1) => void;
  readonly onClose: () => void;
}) {
  const { table, line, first, at, of, lacks, onStep, onClose } = props;
  const groups = [...new Set([...first, ...table.columns.map(({ group }) => group)])];
  return (
    <aside className="row-form" aria-label={`All fields of ${line.name}`}>
      <header>
        <h3 title={line.name}>{line.name}</h3>
        <span className="note">
          {at + 1} of {of}
        </span>
        <Steps at={at} of={of} onStep={onStep} />
        <button type="button" className="quiet cross" aria-label="Close the form" onClick={onClose}>
          ×
        </button>
      </header>
      {lacks.length > 0 && (
        <ul className="row-form-lacks" aria-label="What is missing or in doubt">
          {lacks.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      )}
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

/** To the row before and the one after. */
function Steps(props: { readonly at: number; readonly of: number; onStep(by: -1 | 1): void }) {
  const { at, of, onStep } = props;
  return (
    <div className="pair">
      <button
        type="button"
        aria-disabled={at === 0}
        title={at === 0 ? "This is the first row." : undefined}
        onClick={() => at > 0 && onStep(-1)}
      >
        Previous
      </button>
      <button
        type="button"
        aria-disabled={at === of - 1}
        title={at === of - 1 ? "This is the last row." : undefined}
        onClick={() => at < of - 1 && onStep(1)}
      >
        Next
      </button>
    </div>
  );
}
