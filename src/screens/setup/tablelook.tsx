import type { Lack, Table } from "../fields/table.ts";
import type { RowSearch } from "./rowsearch.ts";
import type { ColumnChoice } from "./tablecolumns.ts";
import type { TablePlace } from "./tableplace.ts";

/** What of a table is looked at: a set of its columns, and the rows that lack something. */
export function TableLook(props: {
  readonly whole: Table;
  readonly columns: ColumnChoice;
  readonly search: RowSearch;
  readonly at: TablePlace;
}) {
  const { whole, columns, search, at } = props;
  if (whole.sets.length === 0 && search.lacks.length === 0) return null;
  return (
    <div className="setup-look">
      {whole.sets.length > 0 && (
        <ColumnSets
          table={whole}
          chosen={columns.chosen}
          onChoose={(name) => {
            columns.choose(name);
            at.take(at.place && { ...at.place, column: 0 });
          }}
        />
      )}
      <Lacks lacks={search.lacks} chosen={search.lack} onChoose={search.wantLacking} />
    </div>
  );
}

/** Which columns are shown. */
function ColumnSets(props: {
  readonly table: Table;
  readonly chosen: string;
  readonly onChoose: (name: string) => void;
}) {
  const { table, chosen, onChoose } = props;
  return (
    <div className="setup-sets joined" role="group" aria-label={`Columns of ${table.title.toLowerCase()}`}>
      {["", ...table.sets.map(({ name }) => name)].map((name) => (
        <button key={name} type="button" aria-pressed={chosen === name} onClick={() => onChoose(name)}>
          {name === "" ? "All columns" : name}
        </button>
      ))}
    </div>
  );
}

/** What rows lack, each with its count; a press shows those that lack it, another all again. */
function Lacks(props: {
  readonly lacks: readonly Lack[];
  readonly chosen: Lack | null;
  readonly onChoose: (words: string | null) => void;
}) {
  const { lacks, chosen, onChoose } = props;
  if (lacks.length === 0) return null;
  return (
    <div className="setup-lacks" role="group" aria-label="What is missing or in doubt">
      {lacks.map((lack) => (
        <button
          key={lack.words}
          type="button"
          className="quiet"
          aria-pressed={lack === chosen}
          onClick={() => onChoose(lack === chosen ? null : lack.words)}
        >
          <b>{lack.rows.size}</b> {lack.words}
        </button>
      ))}
    </div>
  );
}
