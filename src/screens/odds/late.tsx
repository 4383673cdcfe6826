import "./late.css";
import { useEffect, useMemo } from "react";
import type { LateTable, LateReport } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { lateTableIsStale, type LateTableWork } from "../../session/index.ts";
import {
  clockText,
  counted,
  crewName,
  evaName,
  listed,
  numberedTask,
  PAPER_HAS_WHAT_WAS_TESTED,
} from "../../words/index.ts";
import { useApp, useSession } from "../context.ts";
import { useDial } from "../dial.ts";
import { useLateTable } from "../uselatetable.ts";
import {
  aloneWords,
  entryWords,
  type JoinedCell,
  joinedCells,
  orderOn,
  type OrderWords,
  resultWords,
  widestError,
} from "./lateentries.ts";

/** By EVA: leaving a task so late, what to drop; so early, what to get ahead with. Worked out when it is looked at. */
export function Late() {
  const { session, view } = useApp();
  const lateTable = useSession((state) => state.lateTable);
  const stale = useSession(lateTableIsStale);
  useLateTable(true);
  const announced = lateTable && !lateTable.running && !stale ? lateTable.report : null;
  useEffect(() => {
    if (announced)
      view.setState({ spoken: `The shed order is worked out for ${counted(announced.evas.length, "EVA")}.` });
  }, [announced, view]);

  return (
    <>
      <div className="odds-tools" role="group" aria-label="Shed order">
        {lateTable?.running ? (
          <>
            <progress
              value={lateTable.progress?.rows ?? 0}
              max={lateTable.progress?.of ?? 1}
              aria-label="Tasks worked out"
            />
            <span className="note">
              {lateTable.progress
                ? `${lateTable.progress.rows} of ${lateTable.progress.of} tasks`
                : "Working…"}
            </span>
          </>
        ) : (
          <span className="note">
            {lateTable?.end === "stopped" ? "Stopped." : "Of the day as it stands."}
          </span>
        )}
        <button
          type="button"
          onClick={() => (lateTable?.running ? session.stopLateTable() : void session.askLateTable())}
        >
          {lateTable?.running ? "Stop" : "Work out anew"}
        </button>
        {lateTable?.report && lateTable.report.evas.length > 0 && (
          <button type="button" className="primary" onClick={() => view.setState({ screen: "paper" })}>
            Print with the cuff checklists
          </button>
        )}
      </div>
      {lateTable?.end === "failed" && (
        <p className="state breach odds-state">
          The shed order could not be worked out: {lateTable.message}.
        </p>
      )}
      {lateTable && stale && !lateTable.running && (
        <p className="state tight odds-state">The day has changed since: this is of the day before.</p>
      )}
      {lateTable && <Found lateTable={lateTable} />}
      {lateTable && <Coming lateTable={lateTable} />}
    </>
  );
}

/** What will stand here, until there is something. */
function Coming({ lateTable: { running, progress, before } }: { readonly lateTable: LateTableWork }) {
  if (!running || before || (progress && progress.rows > 0)) return null;
  return (
    <p className="empty">
      What to leave out, or in which order to go on, when a task is left 5 to 45 min late; and what to get
      ahead with when it is left early. Of the whole stay, so a long one takes minutes.
    </p>
  );
}

/** The tables; while they are worked out those of the day before, and where there are none the rows that are there already. */
function Found({ lateTable: { running, plan, report, before } }: { readonly lateTable: LateTableWork }) {
  if (running && before)
    return (
      <>
        <p className="state tight odds-state">Of the day before, until the new order is worked out.</p>
        <Tables plan={before.plan} report={before.report} />
      </>
    );
  return report && (report.complete || report.evas.length > 0) ? (
    <Tables plan={plan} report={report} />
  ) : null;
}

function Tables({ plan, report }: { readonly plan: Plan; readonly report: LateReport }) {
  if (!report.sound)
    return (
      <p className="state breach odds-state">
        The day breaks a rule as it stands, so there is no shed order. Mend it first.
      </p>
    );
  if (report.evas.length === 0) return <p className="empty">Nobody goes out: nothing can be late.</p>;
  const error = widestError(report);
  return (
    <div className="late-table">
      <p className="note">
        Each cell is played on {counted(report.days, "simulated day")}: the day as planned until then, this
        task so late, all after it as drawn. Must-do is the share of those days with every must-do task done
        {error !== null && `, by so few days known to within ${counted(error, "point")}`}; worth is of the
        whole day, on average. An order that is found so far is the best found, not the best there is.{" "}
        {PAPER_HAS_WHAT_WAS_TESTED}
      </p>
      {!report.complete && <p className="state tight">Not through yet: some tasks are missing here.</p>}
      {report.evas.map((eva) => (
        <section key={eva.eva} aria-label={evaName(plan, eva.eva)}>
          <h3>{evaName(plan, eva.eva)}: late</h3>
          <EvaTable plan={plan} eva={eva} minutes={report.minutes} />
          <h3>{evaName(plan, eva.eva)}: get-ahead list</h3>
          <Ahead plan={plan} eva={eva} />
        </section>
      ))}
    </div>
  );
}

function EvaTable(props: {
  readonly plan: Plan;
  readonly eva: LateTable;
  readonly minutes: readonly number[];
}) {
  const { plan, eva, minutes } = props;
  const dial = useDial();
  const plannedOf = useMemo(() => orderOn(plan, eva.eva), [plan, eva.eva]);
  return (
    <div
      className="shed-table"
      role="region"
      aria-label={`${evaName(plan, eva.eva)}, when late`}
      tabIndex={0}
    >
      <table>
        <thead>
          <tr>
            <th scope="col">Leaving</th>
            <th scope="col">Planned</th>
            {minutes.map((late) => (
              <th key={late} scope="col">
                {late} min late
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {eva.rows.map((row) => (
            <tr key={row.task}>
              <th scope="row">
                {numberedTask(plan, row.task)}{" "}
                <span className="note">{row.crew.map((id) => crewName(plan, id)).join(", ")}</span>
              </th>
              <td>{clockText(dial, Math.ceil(row.endS / 60) * 60, eva.eva)}</td>
              {joinedCells(row.late).map((joined) => (
                <EntryCell key={joined.cell.minutes} plan={plan} joined={joined} plannedOf={plannedOf} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function EntryCell(props: {
  readonly plan: Plan;
  readonly joined: JoinedCell;
  readonly plannedOf: OrderWords["plannedOf"];
}) {
  const { plan, joined, plannedOf } = props;
  const { cell, last, span } = joined;
  const loses = cell.worthLost > 0 || cell.mustLost > 0;
  const result = resultWords(last);
  const alone = aloneWords(cell);
  const { does, but, orders } = entryWords(cell, {
    nameOf: (task) => numberedTask(plan, task),
    crewOf: (crew) => crewName(plan, crew),
    plannedOf,
  });
  return (
    <td
      colSpan={span}
      className={`shed-cell shed-${cell.kind}${cell.mustLost > 0 ? " must" : ""}`}
      title={[cell.sentence, ...(alone === null ? [] : [alone])].join(" ")}
    >
      {[...does, ...but].map((part) => (
        <span key={part} className="shed-part">
          {part}
        </span>
      ))}
      {orders.length > 0 && (
        // An order may be of twenty tasks a crew member.
        <details className="shed-order">
          <summary>
            {listed(cell.then.map(({ crew }) => crewName(plan, crew)))}{" "}
            {does.length === 0 ? "go on in another order" : "in another order"}
          </summary>
          {orders.map((order) => (
            <span key={order} className="shed-part">
              {order}
            </span>
          ))}
        </details>
      )}
      {loses && (
        <span className="note">
          {" "}
          {cell.mustLost > 0 && `${counted(cell.mustLost, "must-do", "must-do")}, `}worth {cell.worthLost}{" "}
          lost
          {cell.least ? "" : ", found so far"}
        </span>
      )}
      {result !== null && (
        <span className="note">
          {" "}
          {span > 1 ? `${last.minutes} min late: ` : ""}
          {result}
        </span>
      )}
    </td>
  );
}

/** Bench tasks that fit, each alone, after a task that is left early. */
function Ahead({ plan, eva }: { readonly plan: Plan; readonly eva: LateTable }) {
  const rows = eva.rows.flatMap(({ task, early }) => {
    const cells = early.filter((cell) => cell.fits.length > 0);
    return cells.length > 0 ? [{ task, cells }] : [];
  });
  if (rows.length === 0)
    return (
      <p className="note">No task on the bench fits into the time that being early by this much gains.</p>
    );
  return (
    <ul className="late-ahead">
      {rows.map(({ task, cells }) => (
        <li key={task}>
          <b>Leaving {numberedTask(plan, task)}</b>
          <ul>
            {cells.map(({ minutes, fits }) => (
              <li key={minutes}>
                {minutes} min early:{" "}
                {fits
                  .map(
                    (one) =>
                      `${numberedTask(plan, one.task)}${one.crew.length > 0 ? ` (${one.crew.map((id) => crewName(plan, id)).join(", ")})` : ""}`,
                  )
                  .join(" or ")}
              </li>
            ))}
          </ul>
        </li>
      ))}
    </ul>
  );
}
