import type { Chance, OddsReport, PendingPart } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import {
  counted,
  noSpreadWords,
  numberedSentence,
  numberedTask,
  percent,
  unplayedWords,
} from "../../words/index.ts";
import { Prose } from "../parts/prose.tsx";
import { ChanceWords, EvaOddsTable, TaskOddsTable } from "./chances.tsx";
import { CrewRulesPart } from "./crewrules.tsx";
import { MarginBands } from "./marginbands.tsx";
import { shapeWords } from "./oddschoice.ts";
import { OffersPart } from "./offers.tsx";
import { Played } from "./played.tsx";
import { WorthSpread } from "./worthspread.tsx";

/** All that simulated days say of a day. */
export function Report(props: {
  readonly plan: Plan;
  readonly report: OddsReport;
  readonly stale: boolean;
  /** What is pending is still to come. */
  readonly running: boolean;
  /** Of the open day as it stands: what is offered can be done. */
  readonly open: boolean;
}) {
  const { plan, report, stale, running, open } = props;
  const lack = (part: PendingPart): string | null =>
    !report.pending.includes(part) ? null : running ? "Being worked out…" : "Not worked out: stopped before.";
  if (report.unplayed.length > 0)
    return (
      <p className="state breach odds-state">
        <Prose words={unplayedWords(plan, report.unplayed)} />
      </p>
    );
  return (
    <div className={stale ? "odds-report older" : "odds-report"}>
      <div className="odds-lead">
        <ThreeChances plan={plan} report={report} />
        <OffersPart plan={plan} report={report} lack={lack("offers")} open={open} />
        <Hurts plan={plan} report={report} lack={lack("sensitivities")} />
      </div>
      <CrewRulesPart report={report} lack={lack("otherwise")} />
      <TaskOddsTable plan={plan} report={report} />
      <EvaOddsTable plan={plan} report={report} />
      <WorthSpread worth={report.worth} />
      <MarginBands plan={plan} report={report} />
      <Played plan={plan} report={report} />
    </div>
  );
}

/** The three chances of the day, on how many days they were counted, and what no day can have. */
function ThreeChances({ plan, report }: { readonly plan: Plan; readonly report: OddsReport }) {
  return (
    <section className="odds-head" aria-label="The day">
      <Wanted
        report={report}
        name="Everybody home"
        words="Every EVA closes inside its limits, with every reserve kept."
        chance={report.home}
        wish={report.wish.home}
      />
      <Wanted
        report={report}
        name="Every must-do done"
        words="Every must-do task of the plan is done."
        chance={report.must}
        wish={report.wish.must}
      />
      <Wanted
        report={report}
        name="Nothing missed"
        words="Both, and nothing that is placed is missed."
        chance={report.whole}
        wish={null}
      />
      <p className="note">
        {counted(report.days, "simulated day")}, durations {shapeWords(report.shape)}, seed {report.seed}. In
        brackets the sampling error: where the chance lies in 95 of 100 such runs. Whether lows and highs are
        right, no number of days can tell.
        {!report.complete && " Broken off before all days were played."}
      </p>
      <WithoutSpread report={report} />
      {report.mustOnBench.length > 0 && (
        <p className="state open">
          No day can have every must-do done; on the bench:{" "}
          {report.mustOnBench.map((task) => numberedTask(plan, task)).join(", ")}.
        </p>
      )}
    </section>
  );
}

/** That overruns of some tasks are in no chance: beside the chances, which else say more than is known. */
function WithoutSpread({ report: { withoutSpread, tasks } }: { readonly report: OddsReport }) {
  const words = noSpreadWords(withoutSpread.length, tasks.length);
  return words !== null && <p className="state tight">{words}</p>;
}

/** The tasks whose spread costs most days; `lack` where that is not known. */
function Hurts(props: { readonly plan: Plan; readonly report: OddsReport; readonly lack: string | null }) {
  const { plan, report, lack } = props;
  return (
    <section aria-label="What hurts the odds most" className="odds-hurts">
      <h3>What hurts the odds most</h3>
      {lack !== null ? (
        <p>{lack}</p>
      ) : report.sensitivities.length === 0 ? (
        <p>No task’s spread costs a day.</p>
      ) : (
        <ol>
          {report.sensitivities.map((hurt) => (
            <li key={hurt.task}>
              <Prose words={numberedSentence(plan, hurt.sentence, [hurt.task])} />
            </li>
          ))}
        </ol>
      )}
      <p className="note">{report.sensitivityMeasure}</p>
    </section>
  );
}

/** One of the three chances, beside what the plan wants of it. Below its wish it says so in a word, not by colour alone. */
function Wanted(props: {
  readonly report: OddsReport;
  readonly name: string;
  readonly words: string;
  readonly chance: Chance;
  readonly wish: number | null;
}) {
  const { report, name, words, chance, wish } = props;
  const standing = wish === null ? null : standingOf(chance, wish);
  return (
    <div>
      <span className="figure">
        <ChanceWords report={report} of={name.toLowerCase()} chance={chance} />
      </span>
      <span>
        <b>{name}.</b> {words}
        {standing && wish !== null && (
          <>
            {" "}
            <span className={`state ${STANDING_STATE[standing]}`}>
              <Prose words={`${standing} of ${percent(wish, "given")}`} />
            </span>
          </>
        )}
      </span>
    </div>
  );
}

/** The state of theme and mark of each standing. */
const STANDING_STATE = {
  "meets the wish": "fine",
  "below the wish": "breach",
  "may be below the wish": "tight",
} as const;

/** How a chance stands against its wish. The lower end counts: what may be below does not meet it. Null where no day was played. */
function standingOf({ of, low, high }: Chance, wish: number): keyof typeof STANDING_STATE | null {
  if (of === 0) return null;
  if (low >= wish) return "meets the wish";
  return high < wish ? "below the wish" : "may be below the wish";
}
