import type { WhyCause, WhyConflict } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { counted, numberedSentence } from "../../words/index.ts";

/** Causes up to this number stand open; a longer list is folded. */
export const FEW = 5;

/** What cannot all hold, in one sentence, how sure that is, and the list of it. */
export function Conflict(props: {
  readonly plan: Plan;
  readonly conflict: WhyConflict;
  readonly more: string;
}) {
  const { plan, conflict, more } = props;
  const { causes, certainty, minimal, scope } = conflict;
  const rules = causes.filter((cause) => cause.kind !== "placement");
  const placed = causes.filter((cause) => cause.kind === "placement");
  return (
    <section aria-label="What stands against it">
      <h3>What stands against it</h3>
      <p className="why-sentence">{numberedSentence(plan, more === "" ? conflict.sentence : more)}</p>
      <p className="note">
        {certainty === "proved" ? "Proved: " : "Searched, not proved: "}
        {scope === "in this order"
          ? `${certainty === "proved" ? "there are" : "the search found"} no times at which ${causes.length === 1 ? "this holds" : "all of it can be had"} in this order. `
          : `${causes.length === 1 ? "this cannot hold" : "not all of it can be had"} while every start stays as it is. `}
        {!minimal && "The list may name more than it takes."}
        {minimal && causes.length > 1 && "None of them can be left out of the list."}
      </p>
      <Causes plan={plan} title="Conditions" causes={rules} />
      <Causes plan={plan} title="Placed tasks" causes={placed} />
    </section>
  );
}

function Causes(props: {
  readonly plan: Plan;
  readonly title: string;
  readonly causes: readonly WhyCause[];
}) {
  const { plan, title, causes } = props;
  if (causes.length === 0) return null;
  return (
    <details open={causes.length <= FEW}>
      <summary>
        {title}: {causes.length}
      </summary>
      <ul>
        {causes.map((cause) => (
          <li key={cause.key}>
            {numberedSentence(plan, cause.sentence)}
            {cause.owner !== null && <span className="note"> Decided by {cause.owner}.</span>}
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Rules in the conflict that nobody at this desk may ease. */
export function Guarded(props: { readonly plan: Plan; readonly sentences: readonly string[] }) {
  const { plan, sentences } = props;
  return (
    <details className="guarded" open={sentences.length <= 2}>
      <summary>{counted(sentences.length, "flight rule")} in the way, not offered</summary>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{numberedSentence(plan, sentence)}</li>
        ))}
      </ul>
    </details>
  );
}
