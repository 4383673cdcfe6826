import type { Finding } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { findingWords } from "../../words/index.ts";
import { LEVEL_WORDS } from "../words.ts";

/** Findings of a rehearsed day, a sentence each. */
export function Breaches(props: {
  readonly plan: Plan;
  readonly findings: readonly Finding[];
  /** What the list is called; where a heading says it, nothing. */
  readonly label?: string;
}) {
  const { plan, findings, label } = props;
  return (
    <ul className="rehearsal-findings" aria-label={label}>
      {findings.map((finding) => (
        <li key={finding.sentence}>
          <span className="state breach">{LEVEL_WORDS[finding.level]}</span> {findingWords(plan, finding)}
        </li>
      ))}
    </ul>
  );
}
