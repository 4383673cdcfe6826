import { grouped } from "../../words/index.ts";
import type { OddsReport, Outcome } from "../../answers/index.ts";
import { ACTING_WORDS, actingRules, CARRIES_ON_WORDS, cautionWords } from "../../session/index.ts";
import { chanceFigure } from "../chancewords.ts";
import { figureChange, worthChange } from "./changewords.ts";
import { Prose } from "../parts/prose.tsx";
import { useApp, useSession } from "../context.ts";

/**
 * How the crew acts, which every chance here rests on: each rule with what it is worth on this plan, and the caution as a dial. What is
 * compared is played on the same days.
 */
export function CrewRulesPart(props: {
  readonly report: OddsReport;
  /** Said in place of what is not known; null where it is. */
  readonly lack: string | null;
}) {
  const { report, lack } = props;
  const { crew, otherwise } = report;
  const rules = actingRules(crew);
  const now: Outcome = { home: report.home, must: report.must, meanWorth: report.worth.mean };
  if (rules.length === 0) return <p>{CARRIES_ON_WORDS}</p>;
  return (
    <section aria-label="How the crew acts" className="crew-rules">
      <h3>How the crew acts, and what each rule is worth here</h3>
      <ul>
        {rules.map((rule) => {
          const found = otherwise.without.find((one) => one.rule === rule);
          return (
            <li key={rule}>
              {ACTING_WORDS[rule]}{" "}
              {found && (
                <span className="note">
                  <Prose words={`Without it: ${differenceWords(now, found.outcome)}.`} />
                </span>
              )}
            </li>
          );
        })}
      </ul>
      {lack !== null && <p>{lack}</p>}
      {lack === null && otherwise.byCaution.length > 1 && <CautionDial report={report} now={now} />}
    </section>
  );
}

/** How early optional work is left out, each setting with what it comes to; a press takes it for the plan. */
function CautionDial({ report, now }: { readonly report: OddsReport; readonly now: Outcome }) {
  const { session, view } = useApp();
  const chosen = useSession((state) => state.plan.odds.crew.caution);
  return (
    <fieldset className="odds-caution">
      <legend>Caution: how early optional work is left out</legend>
      {report.otherwise.byCaution.map(({ caution, outcome }) => (
        <label key={caution}>
          <input
            type="radio"
            name="caution"
            checked={caution === chosen}
            onChange={() => {
              session.edit("Caution of the crew", (plan) => ({
                odds: { ...plan.odds, crew: { ...plan.odds.crew, caution } },
              }));
              view.setState({ spoken: `Caution: ${cautionWords(caution)}.` });
            }}
          />
          <span>
            {cautionWords(caution)}
            <span className="note">
              <Prose
                words={
                  caution === report.crew.caution
                    ? ` as now: must-do ${chanceFigure(outcome.must)}, worth ${grouped(Math.floor(outcome.meanWorth))} on average`
                    : ` leaves out ${caution > report.crew.caution ? "earlier" : "later"}: ${differenceWords(now, outcome)}`
                }
              />
            </span>
          </span>
        </label>
      ))}
    </fieldset>
  );
}

/** `must-do from 82 % to 98 %, worth −70 on average`: what changes from `now`. */
export function differenceWords(now: Outcome, then: Outcome): string {
  const change = (name: string, changed: string | null): readonly string[] =>
    changed === null ? [] : [`${name} ${changed}`];
  const worth = worthChange(now, then);
  return [
    ...change("home", figureChange(now.home, then.home)),
    ...change("must-do", figureChange(now.must, then.must)),
    worth === null ? "worth the same" : `worth ${worth} on average`,
  ].join(", ");
}
