import type { Outing, Subject } from "../../answers/index.ts";
import { evaName, lasting, timeLeft } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import type { CrewOuting } from "../crewouting.ts";
import type { Walkthrough } from "../walkthrough.ts";

/** recharge: from ingress complete to the next egress of the same crew member, and to the next one in the same suit. */
export const recharge: JudgeRule = (walkthrough) => {
  const { plan } = walkthrough.prepared;
  const { recharge: rule, tightS } = plan.rules;
  return turnsOf(walkthrough).flatMap(({ whose, name, before, next, gapS }) => {
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
          sentence: `${name} has ${timeLeft(gapS)} between ${evaName(plan, before.eva)} and ${evaName(plan, next.eva)}; recharging needs ${lasting(rule.leastS, "up")}.`,
        },
      ),
    ];
  });
};

/** From one outing to the next of somebody, or of a suit that another wears. */
interface Turn {
  readonly whose: Subject;
  readonly name: string;
  readonly before: Outing;
  readonly next: Outing;
  readonly gapS: number;
}

/** All turns that the rule tests. */
export function turnsOf({ crewOutingsOf, crewOutingsIn }: Walkthrough): Turn[] {
  const turns: Turn[] = [];
  const add = (
    whose: Subject,
    name: string,
    { outing: before }: CrewOuting,
    { outing: next }: CrewOuting,
  ): void => {
    turns.push({ whose, name, before, next, gapS: next.span.startS - before.span.endS });
  };
  for (const [crew, crewOutings] of crewOutingsOf) {
    crewOutings.slice(1).forEach((next, k) => {
      add(about("crew", crew), next.walker.member.name, crewOutings[k]!, next);
    });
  }
  for (const [suit, crewOutings] of crewOutingsIn) {
    let before = crewOutings[0];
    for (const next of crewOutings.slice(1)) {
      const last = before!;
      if (next.outing.span.endS >= last.outing.span.endS) before = next;
      // The same wearer is told of above, and two at once break suit-worn-once.
      if (next.outing.crew === last.outing.crew || next.outing.span.startS < last.outing.span.endS) continue;
      const name = `${next.walker.suit.name}, worn by ${last.walker.member.name} and then by ${next.walker.member.name},`;
      add(about("suit", suit), name, last, next);
    }
  }
  return turns;
}
