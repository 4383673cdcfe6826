import type { Finding, Subject } from "../../answers/index.ts";
import { evaName, lasting, timeLeft } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import type { Walk } from "../walks.ts";
import type { Walkthrough } from "../walkthrough.ts";

/** recharge: from ingress complete to the next egress of the same crew member, and to the next one in the same suit. */
export const recharge: JudgeRule = ({ prepared, walksOf, walksIn }) => {
  const findings: Finding[] = [];
  for (const [crew, walks] of walksOf) {
    walks.slice(1).forEach((next, k) => {
      const { name } = next.walker.member;
      findings.push(...between(prepared, about("crew", crew), name, walks[k]!, next));
    });
  }
  for (const [suit, walks] of walksIn) {
    let before = walks[0];
    for (const next of walks.slice(1)) {
      const last = before!;
      if (next.outing.span.endS >= last.outing.span.endS) before = next;
      // The same wearer is told of above, and two at once break suit-worn-once.
      if (next.outing.crew === last.outing.crew || next.outing.span.startS < last.outing.span.endS) continue;
      const name = `${next.walker.suit.name}, worn by ${last.walker.member.name} and then by ${next.walker.member.name},`;
      findings.push(...between(prepared, about("suit", suit), name, last, next));
    }
  }
  return findings;
};

function between(
  prepared: Walkthrough["prepared"],
  whose: Subject,
  name: string,
  { outing: before }: Walk,
  { outing: next }: Walk,
): Finding[] {
  const { recharge: rule, tightS } = prepared.plan.rules;
  const gapS = next.span.startS - before.span.endS;
  const spareS = gapS - rule.leastS;
  if (spareS >= tightS) return [];
  return [
    finding(
      "recharge",
      spareS < 0 ? broken(rule.level) : "tight",
      [whose, about("eva", before.eva), about("eva", next.eva)],
      {
        span: gapS > 0 ? { startS: before.span.endS, endS: next.span.startS } : null,
        need: rule.leastS,
        have: gapS,
        unit: "s",
        sentence: `${name} has ${timeLeft(gapS)} between ${evaName(prepared.plan, before.eva)} and ${evaName(prepared.plan, next.eva)}; recharging needs ${lasting(rule.leastS, "up")}.`,
      },
    ),
  ];
}
