import { type Reading, type Sheet, targetOf, TARGETS, unitOf, UNITS } from "../../session/lists.ts";

const SAMPLES = 3;

/** What each column of the list is taken for, with its first cells beside it; a row a column. */
export function Columns(props: {
  readonly sheet: Sheet;
  readonly reading: Reading;
  readonly onReading: (reading: Reading) => void;
}) {
  const { sheet, reading } = props;
  const targets = TARGETS[reading.kind];
  const under = sheet.rows.slice(reading.headRow + 1);
  const put = (k: number, part: { readonly target?: string | null; readonly unit?: string }): void =>
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
        {reading.columns.map(({ head, target, unit }, k) => {
          const name = head === "" ? `Column ${k + 1}` : head;
          const units = Object.keys(UNITS[targetOf(reading.kind, target)?.sort ?? "text"] ?? {});
          const cells = under.map((row) => (row[k] ?? "").trim()).filter((text) => text !== "");
          return (
            <tr key={k}>
              <th scope="row">{name}</th>
              <td>
                <select
                  aria-label={`${name} is taken as`}
                  className={target === null ? "import-untaken" : undefined}
                  value={target ?? ""}
                  onChange={(event) => {
                    const id = event.currentTarget.value === "" ? null : event.currentTarget.value;
                    put(k, { target: id, unit: unitOf(targetOf(reading.kind, id)?.sort, "") });
                  }}
                >
                  <option value="">nothing</option>
                  {targets.map(({ id, label }) => (
                    <option key={id} value={id}>
                      {label}
                    </option>
                  ))}
                </select>
                {units.length > 0 && (
                  <select
                    aria-label={`Unit of bare numbers under ${name}`}
                    value={unit}
                    onChange={(event) => put(k, { unit: event.currentTarget.value })}
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
        })}
      </tbody>
    </table>
  );
}
