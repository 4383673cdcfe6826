import type { ListRead, Reading, RowOutcome } from "../../session/lists.ts";
import { counted } from "../../words/index.ts";

/** What the list would make of the plan, row by row; what would be lost stands first, counted and in red. */
export function Preview(props: {
  readonly read: ListRead;
  readonly clocks: Reading["clocks"];
  readonly taken: string | null;
  readonly trouble: string | null;
  readonly onTake: () => void;
}) {
  const { read, clocks, taken, trouble, onTake } = props;
  const good = countOf(read, "new") + countOf(read, "changed");
  return (
    <section aria-label="What it makes of the plan" className="import-preview">
      <div className="import-sum" role="status">
        <Sums read={read} clocks={clocks} />
        {trouble !== null && (
          <p className="import-lost" role="alert">
            Nothing was taken: {trouble}
          </p>
        )}
        {taken !== null && <p>{taken}: done. Undo takes it back.</p>}
      </div>
      <Rows rows={read.rows} />
      <footer>
        <button
          type="button"
          className="primary"
          aria-disabled={good === 0}
          title={good === 0 ? "No row changes anything in the plan" : undefined}
          onClick={() => good > 0 && onTake()}
        >
          Take {counted(good, "row")} into the plan
        </button>
      </footer>
    </section>
  );
}

function countOf({ rows }: ListRead, state: RowOutcome["state"]): number {
  return rows.filter((row) => row.state === state).length;
}

/** How many rows come to what, what is lost, and what could be meant otherwise. */
function Sums({ read, clocks }: { readonly read: ListRead; readonly clocks: Reading["clocks"] }) {
  const lost = lossesOf(read);
  const [changed, same] = [countOf(read, "changed"), countOf(read, "same")];
  return (
    <>
      <p>
        <b>{counted(countOf(read, "new"), "new row")}</b>
        {changed > 0 && `, ${changed} changed`}
        {same > 0 && `, ${same} as in the plan`}
        {lost.length === 0 ? ". Nothing is lost." : "."}
      </p>
      {lost.length > 0 && (
        <p className="import-lost">
          <b>Lost:</b> {lost.join("; ")}.
        </p>
      )}
      {read.eitherMark > 0 && (
        <p className="import-note">
          {counted(read.eitherMark, "number")} such as 1,500 or 1.500 would be another with the other decimal
          sign.
        </p>
      )}
      {read.eitherClock && (
        <p className="import-note">
          {counted(read.eitherClock.cells, "length")} such as {read.eitherClock.text}{" "}
          {read.eitherClock.cells === 1 ? "is" : "are"} read as{" "}
          <b>{clocks === "h:mm" ? "hours and minutes" : "minutes and seconds"}</b>, not as{" "}
          {clocks === "h:mm" ? "minutes and seconds" : "hours and minutes"}.
        </p>
      )}
      {read.notes.map((note) => (
        <p key={note} className="import-note">
          {note}
        </p>
      ))}
    </>
  );
}

/** The rows of the list, and what becomes of each. */
function Rows({ rows }: { readonly rows: readonly RowOutcome[] }) {
  return (
    <div className="import-rows" tabIndex={0} role="region" aria-label="Rows">
      <table>
        <thead>
          <tr>
            <th scope="col">Row</th>
            <th scope="col">What</th>
            <th scope="col">Becomes</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.line} className={row.state === "left out" ? "import-left-out" : undefined}>
              <td>{row.line}</td>
              <th scope="row">
                {row.number !== "" && <span className="note">{row.number} </span>}
                {row.name === "" ? "no name" : row.name}
              </th>
              <td>
                <b>{row.state === "same" ? "as in the plan" : row.state}</b>
                {row.says.length > 0 && `: ${row.says.join("; ")}`}
                {row.lost.length > 0 && <span className="import-lost"> Lost: {row.lost.join("; ")}.</span>}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** What of the list goes nowhere, a phrase each. */
function lossesOf({ rows, unread }: ListRead): readonly string[] {
  const left = rows.filter(({ state }) => state === "left out").length;
  const cells = rows.reduce((sum, row) => sum + row.lost.length, 0);
  return [
    ...(left > 0 ? [counted(left, "row")] : []),
    ...(cells > 0 ? [`${counted(cells, "cell")} in other rows`] : []),
    ...unread.map(({ head, cells: many }) => `column “${head}”, ${counted(many, "cell")}`),
  ];
}
