import type { Shape } from "../../kernel/index.ts";
import { oddsAreDue, type OddsChoice, type OddsWork, PRESENT } from "../../session/index.ts";
import { grouped } from "../../words/index.ts";
import { useApp, useSession } from "../context.ts";
import { DAYS, isOfChoice, LARGEST_SEED, SHAPES } from "./oddschoice.ts";

/** A day whose odds are looked at, and what is known of them. */
interface LookedAt {
  readonly which: string;
  readonly work: OddsWork | null;
  /** The report is of the day as it was before. */
  readonly stale: boolean;
  /** Nothing is placed on it. */
  readonly nothing: boolean;
}

interface ChoiceProps {
  readonly choice: OddsChoice;
  onChoice(choice: OddsChoice): void;
}

/** Of which day, how many days are simulated and how; the way to have it worked out, and what becomes of it. */
export function OddsTools(props: LookedAt & ChoiceProps & { onDay(which: string): void }) {
  const { which, work, stale, nothing, choice, onChoice, onDay } = props;
  return (
    <div className="odds-tools" role="group" aria-label="Simulated days">
      <DayChoice which={which} onDay={onDay} />
      <CountChoice choice={choice} onChoice={onChoice} />
      <SpreadChoice choice={choice} onChoice={onChoice} />
      <SeedChoice choice={choice} onChoice={onChoice} />
      <StartAndStop {...{ which, work, stale, nothing, choice }} />
      <Standing {...{ which, work, stale, nothing }} />
    </div>
  );
}

function DayChoice({ which, onDay }: { readonly which: string; onDay(which: string): void }) {
  const variants = useSession((state) => state.plan.variants);
  return (
    <label>
      Day
      <select value={which} onChange={(event) => onDay(event.target.value)}>
        <option value={PRESENT}>as it stands</option>
        {variants.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
    </label>
  );
}

function CountChoice({ choice, onChoice }: ChoiceProps) {
  return (
    <label>
      Simulated days
      <select
        value={choice.days}
        onChange={(event) => onChoice({ ...choice, days: Number(event.target.value) })}
      >
        {DAYS.map((days) => (
          <option key={days} value={days}>
            {grouped(days)}
          </option>
        ))}
      </select>
    </label>
  );
}

function SpreadChoice({ choice, onChoice }: ChoiceProps) {
  return (
    <label>
      Durations spread
      <select
        value={choice.shape}
        onChange={(event) => onChoice({ ...choice, shape: event.target.value as Shape })}
      >
        {SHAPES.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}

/** What is typed is left alone until the field is left: a number on the way to another one is no seed yet. */
function SeedChoice({ choice, onChoice }: ChoiceProps) {
  return (
    <label>
      Seed
      <input
        type="number"
        min={0}
        max={LARGEST_SEED}
        step={1}
        required
        defaultValue={choice.seed}
        onChange={({ target }) => {
          if (target.validity.valid) onChoice({ ...choice, seed: target.valueAsNumber });
        }}
        onBlur={({ target }) => {
          if (!target.validity.valid) target.value = String(choice.seed);
        }}
      />
    </label>
  );
}

/** One button that starts and stops, and how far the days are. */
function StartAndStop({ which, work, stale, nothing, choice }: LookedAt & Pick<ChoiceProps, "choice">) {
  const { session } = useApp();
  const running = work?.running ?? false;
  const same = work !== null && !stale && work.report !== null && isOfChoice(work.report, choice);
  return (
    <>
      <button
        type="button"
        className={running || same || nothing ? undefined : "primary"}
        disabled={!running && nothing}
        title={!running && nothing ? "Nothing is on the line: there is nothing to play." : undefined}
        onClick={() => (running ? session.stopOdds() : void session.askOdds(which, choice))}
      >
        {running ? "Stop" : "Work out the odds"}
      </button>
      {running && (
        <progress value={work?.progress?.days ?? 0} max={work?.options.days} aria-label="Days simulated" />
      )}
    </>
  );
}

/** Of which day the figures are, and what becomes of them. Always there, so that nothing below it moves. */
function Standing({ which, work, stale, nothing }: LookedAt) {
  const packing = useSession((state) => state.run?.running ?? false);
  const due = useSession((state) => oddsAreDue(state, which));
  const coming = due || work?.running === true;
  if (!work?.report) {
    const words = unansweredWords(work?.end === "stopped", coming, packing);
    return words === null ? null : <span className="note">{words}</span>;
  }
  if (!stale)
    return (
      <span className="note">
        {which === PRESENT ? "Of the day as it stands" : "Of the variant as it is"}
        {work.running ? ", more being worked out…" : "."}
      </span>
    );
  return <span className="state tight">Of the day before{nextWords(coming, packing, nothing)}</span>;
}

/** What becomes of odds that are not there yet; null where it is for the planner to ask. */
function unansweredWords(stopped: boolean, coming: boolean, packing: boolean): string | null {
  if (stopped) return "Stopped before there was an answer.";
  if (coming) return "Being worked out…";
  return packing ? "Follow when the packer rests." : null;
}

/** What follows the odds of the day before. */
function nextWords(coming: boolean, packing: boolean, nothing: boolean): string {
  if (coming) return ", until the new ones are here.";
  if (packing) return ", until the packer rests.";
  return nothing ? ". Nothing is placed now." : ". Work them out anew.";
}
