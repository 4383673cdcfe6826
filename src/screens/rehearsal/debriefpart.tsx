import type { Plan } from "../../plan/index.ts";
import { type Debrief, debriefCsv, type DebriefRow, isLost, isOver } from "../../session/index.ts";
import { clock, counted, crewName, grouped, lasting } from "../../words/index.ts";
import { download } from "../parts/files.ts";
import { stateFile } from "../parts/statefile.ts";
import { Breaches } from "./breaches.tsx";
import { aheadBreaches } from "./broken.ts";
import { useRehearsal, useRehearsed } from "./context.ts";

/** Planned against what came of it: the sums, the EVAs, and every task with the reason it does not count as done. */
export function DebriefPart() {
  const work = useRehearsal();
  const { plan } = useRehearsed();
  const debrief = work.debrief();
  if (!debrief) return null;
  return (
    <div className="rehearsal-debrief">
      <Harm />
      <Sums debrief={debrief} />
      <div className="rehearsal-acts">
        <button
          type="button"
          onClick={() =>
            download(stateFile(plan, "debrief.csv"), [debriefCsv(plan, debrief)], "text/csv;charset=utf-8")
          }
        >
          Save the debrief as CSV
        </button>
      </div>
      <Worst debrief={debrief} />
      <Tasks plan={plan} rows={debrief.rows} />
    </div>
  );
}

/** What came of a task. A loss is said loudly, of must-do work the loudest. */
function Outcome({ row }: { readonly row: DebriefRow }) {
  const why = row.why ?? "";
  if (!isLost(row)) return why === "" ? row.outcome : `${row.outcome}: ${why}`;
  return (
    <>
      {row.must ? <span className="state breach">{row.outcome}</span> : <b>{row.outcome}</b>} {why}
    </>
  );
}

/** Which rules the day broke, or breaks if it goes on like this, that the plan had kept: told before anything that was done. */
function Harm() {
  const day = useRehearsed();
  const broken = aheadBreaches(day);
  const over = isOver(day);
  if (broken.length === 0)
    return <p className="note">{over ? "It broke" : "So far it breaks"} no rule that the plan had kept.</p>;
  return (
    <section aria-label="Rules broken">
      <h3>
        {counted(broken.length, "new breach", "new breaches")}
        {over ? "" : " if all goes on like this"}
      </h3>
      <Breaches plan={day.plan} findings={broken} />
    </section>
  );
}

/** What was done of what was planned, and when the EVAs were out. */
function Sums({ debrief }: { readonly debrief: Debrief }) {
  return (
    <ul className="rehearsal-sums">
      <Sum value={`${debrief.done} of ${debrief.planned}`} name="tasks done" />
      <Sum value={`${debrief.mustDone} of ${debrief.mustPlanned}`} name="must-do done" />
      <Sum value={`${grouped(debrief.worthDone)} of ${grouped(debrief.worthPlanned)}`} name="worth" />
      {debrief.evas.map((eva) => (
        <Sum
          key={eva.eva}
          value={span(eva.outS, eva.inS)}
          name={`${eva.name}, planned ${span(eva.plannedOutS, eva.plannedInS)}`}
        />
      ))}
    </ul>
  );
}

/** Every task, planned against what came of it. */
function Tasks({ plan, rows }: { readonly plan: Plan; readonly rows: readonly DebriefRow[] }) {
  return (
    <div className="rehearsal-table" tabIndex={0} role="group" aria-label="Every task">
      <table>
        <thead>
          <tr>
            <th scope="col">Planned</th>
            <th scope="col">Task</th>
            <th scope="col">Who</th>
            <th scope="col">Began</th>
            <th scope="col" className="rehearsal-amount">
              Later
            </th>
            <th scope="col" className="rehearsal-amount">
              Planned to take
            </th>
            <th scope="col" className="rehearsal-amount">
              Took
            </th>
            <th scope="col" className="rehearsal-amount">
              Longer
            </th>
            <th scope="col">Outcome</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <TaskRow key={row.task} plan={plan} row={row} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

function TaskRow({ plan, row }: { readonly plan: Plan; readonly row: DebriefRow }) {
  return (
    <tr>
      <td>{row.plannedStartS === null ? "not planned" : clock(row.plannedStartS)}</td>
      <th scope="row">
        {row.number} {row.name} {row.must && <span className="note">must-do</span>}
      </th>
      <td>{row.crew.map((id) => crewName(plan, id)).join(", ") || "by command"}</td>
      <td>{row.startS === null ? "" : clock(row.startS)}</td>
      <td className="rehearsal-amount">{row.lateS === null ? "" : moreWords(row.lateS)}</td>
      <td className="rehearsal-amount">{lasting(row.plannedLengthS, "up")}</td>
      <td className="rehearsal-amount">{row.lengthS === null ? "" : lasting(row.lengthS, "up")}</td>
      <td className="rehearsal-amount">{row.longerS === null ? "" : moreWords(row.longerS)}</td>
      <td>
        <Outcome row={row} />
      </td>
    </tr>
  );
}

function Sum({ value, name }: { readonly value: string; readonly name: string }) {
  return (
    <li>
      <b className="figure">{value}</b> <span className="note">{name}</span>
    </li>
  );
}

function span(fromS: number | null, toS: number | null): string {
  if (fromS === null) return "not yet";
  return `${clock(fromS)} to ${toS === null ? "…" : clock(toS)}`;
}

/** By how much something is more, with its sign: a begun minute of more counts whole, one of less not at all. */
function moreWords(lengthS: number): string {
  const words = wholeMinutes(lengthS);
  return lengthS > 0 ? `+${words}` : words;
}

/** A length in whole minutes, a begun one counted. */
function wholeMinutes(lengthS: number): string {
  const wholeS = Math.ceil(lengthS / 60) * 60;
  return wholeS === 0 ? "0 min" : lasting(wholeS, "given");
}

const SHOWN = 3;

/** What cost the most time, in words. */
function Worst({ debrief }: { readonly debrief: Debrief }) {
  const longest = debrief.rows
    .filter((row): row is DebriefRow & { longerS: number } => row.longerS !== null && row.longerS > 0)
    .toSorted((a, b) => b.longerS - a.longerS)
    .slice(0, SHOWN);
  if (longest.length === 0) return null;
  return (
    <p>
      Longest over their planned time:{" "}
      {longest.map((row) => `${row.number} ${row.name} (${wholeMinutes(row.longerS)})`).join(", ")}.
    </p>
  );
}
