import { Fragment } from "react";
import type { Column, Table } from "../fields/table.ts";

/** The heads of a grid's columns: one row, or two where columns are grouped. */
export function GridHead({ table }: { readonly table: Table }) {
  const { columns } = table;
  const named = table.rows === null;
  const grouped = columns.some((column) => column.group !== "");
  return (
    <thead>
      {grouped && (
        <tr className="grid-groups">
          {groupsOf(columns).map(({ name, size }, index) =>
            name === "" ? (
              <td key={index} colSpan={size} />
            ) : (
              <th key={index} scope="colgroup" colSpan={size}>
                <span>{name}</span>
              </th>
            ),
          )}
        </tr>
      )}
      <tr>
        {named && (
          <th scope="col">
            <span className="unseen">Field</span>
          </th>
        )}
        {columns.map((column, index) => (
          <Fragment key={index}>
            <th
              scope="col"
              data-align={column.align}
              style={named ? { minWidth: `calc(${column.width}ch + 1.25rem)` } : undefined}
            >
              {column.label}
              {column.unit !== "" && <span className="unit">{column.unit}</span>}
            </th>
            {index === 0 && table.beside && <th scope="col">{table.beside.label}</th>}
          </Fragment>
        ))}
      </tr>
    </thead>
  );
}

function groupsOf(columns: readonly Column[]): { name: string; size: number }[] {
  const groups: { name: string; size: number }[] = [];
  // The first column stands alone: it stays in sight.
  for (const [index, { group }] of columns.entries()) {
    const last = groups.at(-1);
    if (last && last.name === group && index > 1) last.size += 1;
    else groups.push({ name: group, size: 1 });
  }
  return groups;
}
