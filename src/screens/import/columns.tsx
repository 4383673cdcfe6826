import { type Reading, type Sheet, targetOf, TARGETS, unitOf, UNITS } from "../../session/lists.ts";

const SAMPLES = 3;

/** What each column of the list is taken for, with its first cells beside it; a row a column. */
export function Columns(props: {
  readonly sheet: Sheet;
  readonly reading: Reading;
  readonly onReading: (reading: Reading) => void;
}) {
  const { sheet, reading } = props;
  const under = sheet.rows.slice(reading.headRow + 1);
  const put = (k: number, part: ColumnPart): void =>
    props.onReading({
      ...reading,
      columns: reading.columns.map((column, at) => {
        if (at === k) return { ...column, ...part };
        // A target has one column: the one that was chosen last.
        return part.target && column.target === part.target ? { ...column, target: null, unit: "" } : column;
      }),
    });
  return (
    <table className="import-columns">
      <caption>Columns</caption>
      <thead>
        <tr>
          <th scope="col">Head</th>
          <th scope="col">Taken as</th>
          <th scope="col">First cells</th>
        </tr>
      </thead>
      <tbody>
        {reading.columns.map((column, k) => (
          <ColumnRow
            key={k}
            kind={reading.kind}
            column={column}
            name={column.head === "" ? `Column ${k + 1}` : column.head}
            cells={under.map((row) => (row[k] ?? "").trim()).filter((text) => text !== "")}
            onPut={(part) => put(k, part)}
          />
        ))}
      </tbody>
    </table>
  );
}

/** What is chosen of a column. */
interface ColumnPart {
  readonly target?: string | null;
  readonly unit?: string;
}

/** One column: its head, what it is taken for and in which unit, and the first of its cells. */
function ColumnRow(props: {
  readonly kind: Reading["kind"];
  readonly column: Reading["columns"][number];
  readonly name: string;
  /** What stands under the head, without what is blank. */
  readonly cells: readonly string[];
  readonly onPut: (part: ColumnPart) => void;
}) {
  const { kind, column, name, cells, onPut } = props;
  const { target, unit } = column;
  const units = Object.keys(UNITS[targetOf(kind, target)?.sort ?? "text"] ?? {});
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>
        <select
          aria-label={`${name} is taken as`}
          className={target === null ? "import-untaken" : undefined}
          value={target ?? ""}
          onChange={(event) => {
            const id = event.currentTarget.value === "" ? null : event.currentTarget.value;
            onPut({ target: id, unit: unitOf(targetOf(kind, id)?.sort, "") });
          }}
        >
          <option value="">nothing</option>
          {TARGETS[kind].map(({ id, label }) => (
            <option key={id} value={id}>
              {label}
            </option>
          ))}
        </select>
        {units.length > 0 && (
          <select
            aria-label={`Unit of bare numbers under ${name}`}
            value={unit}
            onChange={(event) => onPut({ unit: event.currentTarget.value })}
          >
            {units.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </select>
        )}
      </td>
      <td className="import-cells">
        {cells.slice(0, SAMPLES).join(" · ")}
        {cells.length > SAMPLES && " …"}
        {cells.length === 0 && <span className="note">blank</span>}
      </td>
    </tr>
  );
}
