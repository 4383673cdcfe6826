import { useEffect, useState } from "react";
import { grouped } from "../../dayline/index.ts";
import {
  type OddsChoice,
  oddsAreStale,
  type OddsReport,
  type OddsWork,
  PRESENT,
  type Shape,
} from "../../store/index.ts";
import { useAround, useDesk } from "../context.ts";
import { counted } from "../words.ts";
import { ChanceWords, EvaOddsTable, TaskOddsTable } from "./chances.tsx";
import { Played } from "./played.tsx";
import { MarginBands } from "./marginbands.tsx";
import { WorthSpread } from "./worthspread.tsx";

const DAYS = [500, 2000, 10_000];
const SHAPES: readonly { readonly id: Shape; readonly name: string }[] = [
  { id: "pert", name: "PERT" },
  { id: "triangular", name: "triangular" },
];
const LARGEST_SEED = 4_294_967_295;

/** Simulated days of the open day or of a variant: set to work, watched, and read. */
export function OddsPart() {
  const { desk } = useAround();
  const variants = useDesk((state) => state.plan.variants);
  const placed = useDesk((state) => state.plan.schedule.placements.length);
  const [wanted, setWanted] = useState(PRESENT);
  const [choice, setChoice] = useState<OddsChoice>({ days: 2000, seed: 1, shape: "pert" });
  const which = variants.some((one) => one.id === wanted) ? wanted : PRESENT;
  const work = useDesk((state) => state.odds.get(which) ?? null);
  const stale = useDesk((state) => oddsAreStale(state, which));
  const running = work?.running ?? false;
  useSpoken(work);

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
        {running && (
          <>
            <progress value={work?.progress?.days ?? 0} max={choice.days} aria-label="Days simulated" />
            <span className="note">{grouped(work?.progress?.days ?? 0)} days</span>
          </>
        )}
        <button
          type="button"
          className={running ? undefined : "primary"}
          disabled={!running && which === PRESENT && placed === 0}
          onClick={() => (running ? desk.stopOdds() : void desk.askOdds(which, choice))}
        >
          {running ? "Stop" : "Work out the odds"}
        </button>
      </div>
      <Standing work={work} stale={stale} nothing={placed === 0} />
      {work?.report && <Report work={work} report={work.report} />}
    </>
  );
}

function Standing(props: {
  readonly work: OddsWork | null;
  readonly stale: boolean;
  readonly nothing: boolean;
}) {
  const { work, stale } = props;
  if (props.nothing && !work) return <p className="empty">Nothing is placed: pack the day first.</p>;
  if (!work)
    return (
      <p className="empty">
        Not worked out yet. Each simulated day draws a duration for every task between its low and its high,
        and the crew plays it by fixed rules.
      </p>
    );
  if (work.end === "failed")
    return <p className="state breach odds-state">The odds could not be worked out: {work.message}.</p>;
  if (stale)
    return (
      <p className="state tight odds-state">
        The day has changed since: these odds are of the day before. Work them out anew.
      </p>
    );
  if (!work.running && !work.report)
    return <p className="state tight odds-state">Stopped before there was an answer.</p>;
  return null;
}

function Report({ work, report }: { readonly work: OddsWork; readonly report: OddsReport }) {
  const { plan } = work;
  const name = (task: string): string => plan.tasks.find((one) => one.id === task)?.name ?? task;
  return (
    <div className="odds-report">
      <section className="odds-head" aria-label="The day">
        <p>
          <span className="figure">
            <ChanceWords chance={report.holds} />
          </span>
          <span>
            <b>The day holds</b>: every EVA closes inside its limits, every must-do task is done, every window
            is met.
          </span>
        </p>
        <p>
          <span className="figure second">
            <ChanceWords chance={report.asPlanned} />
          </span>
          <span>That, and nothing that is placed is missed.</span>
        </p>
        <p className="note">
          {counted(report.days, "simulated day")}, durations {shapeWords(report.shape)}, seed {report.seed}.
          In brackets the sampling error: where the chance lies in 95 of 100 such runs. Whether lows and highs
          are right, no number of days can tell.
          {!report.complete && " Broken off before all days were played."}
        </p>
        {report.mustOnBench.length > 0 && (
          <p className="state open">
            No day can hold: must-do on the bench: {report.mustOnBench.map(name).join(", ")}.
          </p>
        )}
      </section>
      <section aria-label="What hurts the odds most" className="hurts">
        <h3>What hurts the odds most</h3>
        {report.hurts.length === 0 ? (
          <p>No task’s spread costs a day.</p>
        ) : (
          <ol>
            {report.hurts.map((hurt) => (
              <li key={hurt.task}>{hurt.sentence}</li>
            ))}
          </ol>
        )}
        <p className="note">{report.hurtMeasure}</p>
      </section>
      <EvaOddsTable plan={plan} evas={report.evas} />
      <TaskOddsTable plan={plan} tasks={report.tasks} />
      <WorthSpread worth={report.worth} />
      <MarginBands plan={plan} margins={report.margins} />
      <Played plan={plan} report={report} />
    </div>
  );
}

function shapeWords(shape: Shape): string {
  return SHAPES.find((one) => one.id === shape)?.name ?? shape;
}

/** Says the outcome once, when a run has ended. */
function useSpoken(work: OddsWork | null): void {
  const { look } = useAround();
  const said = work && !work.running && work.end === "answered" ? work.report : null;
  useEffect(() => {
    if (!said) return;
    look.setState({ spoken: `The day holds in ${said.holds.words} of ${said.days} simulated days.` });
  }, [said, look]);
}
