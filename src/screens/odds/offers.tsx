import type { Offer, OddsReport } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { grouped, listed, numberedTask, signed } from "../../words/index.ts";
import { chanceFigure } from "../chancewords.ts";
import { useAround } from "../context.ts";

/** What would mend the day by leaving something out, each played, and a click away while the day is still the one that was played. */
export function OffersPart(props: {
  readonly plan: Plan;
  readonly report: OddsReport;
  readonly open: boolean;
}) {
  const { plan, report, open } = props;
  if (report.offers.length === 0) return null;
  return (
    <section aria-label="What would mend it" className="mends">
      <h3>What would mend it</h3>
      <ul>
        {report.offers.map((offer) => (
          <li key={offer.bench.join(" ")}>
            <Sentence plan={plan} offer={offer} /> {open && <Take plan={plan} offer={offer} />}
          </li>
        ))}
      </ul>
      <p className="note">
        Each played on {grouped(report.offers[0]?.after.must.of ?? 0)} of the same simulated days, everything
        else as it is; no rule is broken at likely durations.
      </p>
    </section>
  );
}

function Sentence({ plan, offer }: { readonly plan: Plan; readonly offer: Offer }) {
  const { before, after, bench } = offer;
  return (
    <>
      Without <b>{listed(bench.map((task) => numberedTask(plan, task)))}</b>: every must-do done{" "}
      {chanceFigure(before.must)} to {chanceFigure(after.must)}, everybody home {chanceFigure(before.home)} to{" "}
      {chanceFigure(after.home)}, worth on average {signed(Math.floor(after.meanWorth - before.meanWorth))} (
      {grouped(Math.floor(after.meanWorth))}).
    </>
  );
}

function Take({ plan, offer: { bench } }: { readonly plan: Plan; readonly offer: Offer }) {
  const { desk, look } = useAround();
  const names = listed(bench.map((task) => numberedTask(plan, task)));
  return (
    <button
      type="button"
      aria-label={`Bench ${names}`}
      onClick={() => {
        desk.bench(bench);
        look.setState({ spoken: `Benched: ${names}. Undo brings them back.` });
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
