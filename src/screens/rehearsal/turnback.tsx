import type { Recall, TurnBack } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { overWords, recallLimiterWords, recallWords } from "../../session/index.ts";
import { clock, lasting, placeName } from "../../words/index.ts";

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
            {clock(startHomeS, "down")} <span className="note">in {lasting(startHomeS - nowS, "down")}</span>
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
  const { isShort, words } = recallWords(plan, of);
  if (!isShort) return <p className="note">{words}</p>;
  return (
    <p className="state breach" role="alert">
      {words}
    </p>
  );
}
