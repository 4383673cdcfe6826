import { useEffect, useState } from "react";
import type { Chance, OddsReport } from "../../answers/index.ts";
import type { Shape } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import {
  oddsAreDue,
  oddsAreStale,
  type OddsChoice,
  type OddsWork,
  placedOn,
  PRESENT,
} from "../../session/index.ts";
import { counted, grouped, numberedSentence, numberedTask, percent } from "../../words/index.ts";
import { useAround, useDesk } from "../context.ts";
import { ChanceWords, EvaOddsTable, TaskOddsTable } from "./chances.tsx";
import { CrewRulesPart } from "./crewrules.tsx";
import { OffersPart } from "./offers.tsx";
import { Played } from "./played.tsx";
import { MarginBands } from "./marginbands.tsx";
import { useOdds } from "./useodds.ts";
import { WorthSpread } from "./worthspread.tsx";

const DAYS = [500, 2000, 10_000];
const SHAPES: readonly { readonly id: Shape; readonly name: string }[] = [
  { id: "pert", name: "PERT" },
  { id: "triangular", name: "triangular" },
];
const FIRST: OddsChoice = { days: 2000, seed: 1, shape: "pert" };
const LARGEST_SEED = 4_294_967_295;

/** Simulated days of the open day or of a variant: worked out when they are looked at, with other settings when asked. */
export function OddsPart() {
  const { desk } = useAround();
  const variants = useDesk((state) => state.plan.variants);
  const [wanted, setWanted] = useState(PRESENT);
  const which = variants.some((one) => one.id === wanted) ? wanted : PRESENT;
  const work = useDesk((state) => state.odds.get(which) ?? null);
  const [choice, setChoice] = useState<OddsChoice>(work?.options ?? FIRST);
  const nothing = useDesk((state) => placedOn(state, which) === 0);
  const stale = useDesk((state) => oddsAreStale(state, which));
  const running = work?.running ?? false;
  const same = work !== null && !stale && work.report !== null && isAsked(work.report, choice);
  useOdds(which, choice);
  useSpoken(work, stale);

  return (
    <>
      <div className="odds-tools" role="group" aria-label="Simulated days">
        <label>
          Day
          <select value={which} onChange={(event) => setWanted(event.target.value)}>
            <option value={PRESENT}>as it stands</option>
            {variants.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
        </label>
        <label>
          Simulated days
          <select
            value={choice.days}
            onChange={(event) => setChoice({ ...choice, days: Number(event.target.value) })}
          >
            {DAYS.map((days) => (
              <option key={days} value={days}>
                {grouped(days)}
              </option>
            ))}
          </select>
        </label>
        <label>
          Durations spread
          <select
            value={choice.shape}
            onChange={(event) => setChoice({ ...choice, shape: event.target.value as Shape })}
          >
            {SHAPES.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <label>
          Seed
          <input
            type="number"
            min={0}
            max={LARGEST_SEED}
            step={1}
            value={choice.seed}
            onChange={(event) => {
              const seed = Math.trunc(Number(event.target.value));
              if (seed >= 0 && seed <= LARGEST_SEED) setChoice({ ...choice, seed });
            }}
          />
        </label>
        <button
          type="button"
          className={running || same || nothing ? undefined : "primary"}
          disabled={!running && nothing}
          onClick={() => (running ? desk.stopOdds() : void desk.askOdds(which, choice))}
        >
          {running ? "Stop" : "Work out the odds"}
        </button>
        {running && (
          <progress value={work?.progress?.days ?? 0} max={work?.options.days} aria-label="Days simulated" />
        )}
        <Standing work={work} stale={stale} which={which} nothing={nothing} />
      </div>
      {work?.end === "failed" && (
        <p className="state breach odds-state">The odds could not be worked out: {work.message}.</p>
      )}
      {work?.report && work.reported ? (
        <Report
          plan={work.reported.plan}
          report={work.report}
          stale={stale}
          open={which === PRESENT && !stale}
        />
      ) : (
        <p className="empty">
          {nothing
            ? "Nothing is placed: pack the day first."
            : "Each simulated day draws a duration for every task between its low and its high, and the crew plays it by fixed rules."}
        </p>
      )}
    </>
  );
}

/** Of which day the figures are, and what becomes of them. Always there, so that nothing below it moves. */
function Standing(props: {
  readonly work: OddsWork | null;
  readonly stale: boolean;
  readonly which: string;
  readonly nothing: boolean;
}) {
  const { work, stale, which, nothing } = props;
  const packing = useDesk((state) => state.run?.running ?? false);
  const due = useDesk((state) => oddsAreDue(state, which));
  if (!work?.report) {
    if (work?.end === "stopped") return <span className="note">Stopped before there was an answer.</span>;
    if (work?.running || due) return <span className="note">Being worked out…</span>;
    return packing ? <span className="note">Follow when the packer rests.</span> : null;
  }
  if (!stale)
    return (
      <span className="note">
        {which === PRESENT ? "Of the day as it stands." : "Of the variant as it is."}
      </span>
    );
  const next =
    work.running || due
      ? ", until the new ones are here."
      : packing
        ? ", until the packer rests."
        : nothing
          ? ". Nothing is placed now."
          : ". Work them out anew.";
  return <span className="state tight">Of the day before{next}</span>;
}

function Report(props: {
  readonly plan: Plan;
  readonly report: OddsReport;
  readonly stale: boolean;
  /** Of the open day as it stands: what is offered can be done. */
  readonly open: boolean;
}) {
  const { plan, report, stale, open } = props;
  const name = (task: string): string => numberedTask(plan, task);
  return (
    <div className={stale ? "odds-report older" : "odds-report"}>
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
          {counted(report.days, "simulated day")}, durations {shapeWords(report.shape)}, seed {report.seed}.
          In brackets the sampling error: where the chance lies in 95 of 100 such runs. Whether lows and highs
          are right, no number of days can tell.
          {!report.complete && " Broken off before all days were played."}
        </p>
        {report.mustOnBench.length > 0 && (
          <p className="state open">
            No day can have every must-do done; on the bench: {report.mustOnBench.map(name).join(", ")}.
          </p>
        )}
      </section>
      <OffersPart plan={plan} report={report} open={open} />
      <CrewRulesPart report={report} />
      <TaskOddsTable plan={plan} report={report} />
      <section aria-label="What hurts the odds most" className="odds-hurts">
        <h3>What hurts the odds most</h3>
        {report.sensitivities.length === 0 ? (
          <p>No task’s spread costs a day.</p>
        ) : (
          <ol>
            {report.sensitivities.map((hurt) => (
              <li key={hurt.task}>{numberedSentence(plan, hurt.sentence, [hurt.task])}</li>
            ))}
          </ol>
        )}
        <p className="note">{report.sensitivityMeasure}</p>
      </section>
      <EvaOddsTable plan={plan} report={report} />
      <WorthSpread worth={report.worth} />
      <MarginBands plan={plan} report={report} />
      <Played plan={plan} report={report} />
    </div>
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
  // The lower end counts: a chance that may be below its wish does not meet it.
  const standing =
    wish === null || chance.of === 0
      ? null
      : chance.low >= wish
        ? "meets the wish"
        : chance.high < wish
          ? "below the wish"
          : "may be below the wish";
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
            <span
              className={`state ${standing === "meets the wish" ? "good" : standing === "below the wish" ? "breach" : "tight"}`}
            >
              {standing}
            </span>{" "}
            <span className="odds-standing-wish">of {percent(wish, "given")}.</span>
          </>
        )}
      </span>
    </div>
  );
}

function shapeWords(shape: Shape): string {
  return SHAPES.find((one) => one.id === shape)?.name ?? shape;
}

/** Whether a report is what these settings give. */
function isAsked({ days, seed, shape }: OddsReport, choice: OddsChoice): boolean {
  return days === choice.days && seed === choice.seed && shape === choice.shape;
}

/** Says the outcome once, when a run has ended; nothing of an older day. */
function useSpoken(work: OddsWork | null, stale: boolean): void {
  const { look } = useAround();
  const said = work && !work.running && !stale && work.end === "answered" ? work.report : null;
  useEffect(() => {
    if (!said) return;
    look.setState({
      spoken: `Of ${counted(said.days, "simulated day")}, everybody is home in ${said.home.words}, every must-do done in ${said.must.words}, nothing missed in ${said.whole.words}.`,
    });
  }, [said, look]);
}
