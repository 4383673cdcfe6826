import type { Offer, OddsReport } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { grouped, listed, numberedTask } from "../../words/index.ts";
import { chanceFigure } from "../chancewords.ts";
import { figureChange, worthChange } from "./changewords.ts";
import { Prose } from "../parts/prose.tsx";
import { useApp } from "../context.ts";

/** What would mend the day by leaving something out, each played, and a click away while the day is still the one that was played. */
export function OffersPart(props: {
  readonly plan: Plan;
  readonly report: OddsReport;
  /** Said in place of what is not known; null where it is. */
  readonly lack: string | null;
  readonly open: boolean;
}) {
  const { plan, report, lack, open } = props;
  const offers = report.offers.filter(betters);
  if (lack === null && offers.length === 0) return null;
  return (
    <section aria-label="What would mend it" className="odds-mends">
      <h3>What would mend it</h3>
      {lack !== null ? (
        <p>{lack}</p>
      ) : (
        <>
          <ul>
            {offers.map((offer) => (
              <li key={offer.bench.join(" ")}>
                <Sentence plan={plan} offer={offer} />
                {open && <Take plan={plan} offer={offer} />}
              </li>
            ))}
          </ul>
          <p className="note">
            Each played on {grouped(offers[0]?.after.must.of ?? 0)} of the same simulated days, everything
            else as it is; no rule is broken at likely durations.
          </p>
        </>
      )}
    </section>
  );
}

/** True when something that is shown of an offer is better than before: what changes by less than is said is no reason to take it. */
function betters({ before, after }: Offer): boolean {
  return (
    after.meanWorth - before.meanWorth >= 1 ||
    (["must", "home"] as const).some(
      (of) => after[of].share > before[of].share && figureChange(before[of], after[of]) !== null,
    )
  );
}

function Sentence({ plan, offer }: { readonly plan: Plan; readonly offer: Offer }) {
  const { before, after, bench } = offer;
  const chance = (of: "must" | "home"): string =>
    figureChange(before[of], after[of]) ?? `${chanceFigure(after[of])}, as now`;
  return (
    <span>
      Without <b>{listed(bench.map((task) => numberedTask(plan, task)))}</b>: every must-do done{" "}
      <Prose
        words={`${chance("must")}, everybody home ${chance("home")}, worth on average ${grouped(Math.floor(after.meanWorth))}, ${worthChange(before, after) ?? "as now"}.`}
      />
    </span>
  );
}

function Take({ plan, offer: { bench } }: { readonly plan: Plan; readonly offer: Offer }) {
  const { session, view } = useApp();
  const names = listed(bench.map((task) => numberedTask(plan, task)));
  return (
    <button
      type="button"
      aria-label={`Bench ${names}`}
      onClick={() => {
        session.bench(bench);
        view.setState({ spoken: `Benched: ${names}. Undo brings them back.` });
      }}
    >
      {bench.length === 1
        ? "Bench it"
        : bench.length === 2
          ? "Bench these two"
          : `Bench these ${bench.length}`}
    </button>
  );
}
