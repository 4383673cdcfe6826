import type { OddsReport, Outcome } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { grouped, numberedTask } from "../../words/index.ts";

/** The rules by which any crew plays a simulated day (O1 to O6, O11). */
const RULES = [
  "Every task takes a drawn time between its low and its high, and a drawn work rate; walking, waiting, egress and ingress share one factor for each crew member and EVA. Lateness is shared: parts of it the whole day and each crew member’s EVA have in common.",
  "Everybody keeps the planned order. A start that the planner fixed is never brought forward.",
  "A task starts when its crew are there, its equipment is free, its lags have passed and its window is open for long enough.",
  "A task is missed, and its crew go on, when what it needs was missed, its window or greatest lag is over, or the walk home after it would close the EVA too late or below a reserve.",
  "What ends outside its window or breaks its lags was done in vain and counts as missed.",
  "Something rare that the plan tells of happens with its chance, apart from all else: the task takes so much longer, known when its time is up, and where that spoils it, it is not done.",
  "An EVA begins as planned, or later when its crew are not yet recharged, and closes when all are back. Walking, egress and ingress take their planned times.",
];

/** How the days were played, what each rule is worth on this day, and what they leave out. */
export function Played({ plan, report }: { readonly plan: Plan; readonly report: OddsReport }) {
  const name = (task: string): string => numberedTask(plan, task);
  const { independent, unhindered } = report.otherwise;
  return (
    <section aria-label="How a day is played" className="odds-played">
      <h3>How a day is played</h3>
      <ol>
        {RULES.map((rule) => (
          <li key={rule}>{rule}</li>
        ))}
      </ol>
      {unhindered && (
        <p>
          <Outcomes before="If no rare event happened: " outcome={unhindered} />
        </p>
      )}
      {independent && (
        <p>
          <Outcomes before="If every task and crew member were late by themselves: " outcome={independent} />
        </p>
      )}
      <p>
        <b>{report.leftOut}</b>
      </p>
      {report.withoutSpread.length > 0 && (
        <p>
          Without a low and a high, so as likely but for rare events:{" "}
          {report.withoutSpread.map(name).join(", ")}.
        </p>
      )}
    </section>
  );
}

function Outcomes({ before, outcome }: { readonly before: string; readonly outcome: Outcome }) {
  return (
    <span className="note">
      {before}home {outcome.home.words}, must-do {outcome.must.words}, worth{" "}
      {grouped(Math.floor(outcome.meanWorth))} on average.
    </span>
  );
}
