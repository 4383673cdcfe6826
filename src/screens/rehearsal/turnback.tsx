import type { Recall, TurnBack } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { overWords, recallLimiterWords } from "../../session/index.ts";
import { clock, evaName, lasting, placeName } from "../../words/index.ts";

/** Where one crew member is, the walk-back from there, and the latest moment to start home with what sets it. */
export function TurnBackLines(props: { readonly plan: Plan; readonly nowS: number; readonly of: TurnBack }) {
  const { plan, nowS, of } = props;
  const { from, to, walkbackS, startHomeS, over } = of;
  return (
    <dl className="rehearsal-home">
      <div>
        <dt className="note">
          {from === to
            ? `Walk-back from ${placeName(plan, from)}`
            : `Walk-back, worst of ${placeName(plan, from)} to ${placeName(plan, to)}`}
        </dt>
        <dd>
          {walkbackS === null ? <span className="state breach">no way home</span> : lasting(walkbackS, "up")}
        </dd>
      </div>
      <div>
        <dt className="note">Start home by</dt>
        {startHomeS === null ? (
          <dd className="state breach">no way home</dd>
        ) : over ? (
          <dd className="state breach">at once: {overWords(over)}</dd>
        ) : (
          <dd>
            {latestWords(startHomeS)} <span className="note">in {lasting(startHomeS - nowS, "down")}</span>
          </dd>
        )}
        <dd className="note">set by {recallLimiterWords(plan, of.by)}</dd>
      </div>
    </dl>
  );
}

/** How soon and how late all of an EVA can be inside; in red where that does not go together. */
export function RecallLine({ plan, of }: { readonly plan: Plan; readonly of: Recall | undefined }) {
  if (!of) return null;
  const { earliestS, latest, eva } = of;
  const by = recallLimiterWords(plan, latest.by);
  if (earliestS === null)
    return (
      <p className="state breach" role="alert">
        Somebody on {evaName(plan, eva)} has no way home.
      </p>
    );
  if (earliestS > latest.ingressS)
    return (
      <p className="state breach" role="alert">
        {evaName(plan, eva)} cannot be inside by {latestWords(latest.ingressS)} ({by}): earliest ingress{" "}
        {earliestWords(earliestS)}, if everything is dropped now.
      </p>
    );
  return (
    <p className="note">
      earliest ingress {earliestWords(earliestS)} if everything is dropped now, latest{" "}
      {latestWords(latest.ingressS)} ({by})
    </p>
  );
}

/** The latest moment for something, rounded down to the minute. */
function latestWords(atS: number): string {
  return clock(atS, "down");
}

/** The earliest moment for something, rounded up to the minute. */
function earliestWords(atS: number): string {
  return clock(atS, "up");
}
