import type { ReactNode, RefObject } from "react";
import type { Plan } from "../../plan/index.ts";
import type { Line, NewRow, Table } from "../fields/table.ts";
import { Menu } from "../parts/menu.tsx";
import type { TableRows } from "./tablerows.ts";

/** What can be done with rows: find, remove, copy, and add. */
export function RowsWork(props: {
  readonly rows: NonNullable<Table["rows"]>;
  readonly plan: Plan;
  /** True where there is no row yet that anything could be done with. */
  readonly empty: boolean;
  readonly line: Line | null;
  readonly work: TableRows;
  readonly adds: RefObject<HTMLButtonElement | null>;
  readonly children: ReactNode;
}) {
  const { rows, plan, empty, line, work, adds, children } = props;
  const add = (made: NewRow): void => work.add(made, (name) => `Add ${name}`);
  return (
    <div className="setup-work">
      {children}
      {!empty && (
        <>
          <button
            type="button"
            disabled={!line}
            title={line ? undefined : "Go to a row first."}
            aria-label={line ? `Remove ${line.name}` : undefined}
            onClick={() => line && work.remove(line)}
          >
            Remove
          </button>
          <button
            type="button"
            disabled={!line}
            title={line ? undefined : "Go to a row first."}
            aria-label={line ? `Duplicate ${line.name}` : undefined}
            onClick={() => line && add(rows.copy(plan, line.id))}
          >
            Duplicate
          </button>
        </>
      )}
      {rows.sorts.length > 0 && (
        <Menu name="Add from a template" label={`Add a ${rows.one} from a template`}>
          {rows.sorts.map((sort) => (
            <button
              key={sort.name}
              type="button"
              className="quiet"
              title={sort.says}
              onClick={() => add(sort.add(plan))}
            >
              {sort.name}
            </button>
          ))}
        </Menu>
      )}
      <button ref={adds} type="button" className="primary" onClick={() => add(rows.add(plan))}>
        Add {rows.one}
      </button>
    </div>
  );
}
