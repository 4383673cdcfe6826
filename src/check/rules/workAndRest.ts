import { instant, type Interval } from "../../kernel/index.ts";
import { evaName, lasting, met } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import type { Prepared } from "../prepared.ts";
import { spellsOf } from "../rests.ts";
import type { CrewOuting } from "../crewouting.ts";

/**
 * work-and-rest: no stretch of work and walking (egress and ingress work included) is longer than the limit; only
 * standing pauses or `rest` effort of at least the rest time, one after the other taken together, end a stretch. A
 * shorter pause inside a stretch counts with it, and so does a pause before leaving (S10).
 */
export const workAndRest: JudgeRule = ({ prepared, outs }) => {
  const { work, tightS } = prepared.plan.rules;
  return outs
    .flatMap((out) => out.crewOutings)
    .flatMap((crewOuting) => {
      const worst = longestOf(prepared, crewOuting);
      if (!worst) return [];
      const lengthS = worst.endS - worst.startS;
      const spareS = work.longestS - lengthS;
      if (spareS >= tightS) return [];
      const at = `${crewOuting.walker.member.name} on ${evaName(prepared.plan, crewOuting.outing.eva)}`;
      const works = `${at} works ${lasting(lengthS, "up")} without a rest of ${lasting(work.restS, "up")}, ${met(worst.startS)} to ${met(worst.endS)}`;
      return [
        finding(
          "work-and-rest",
          spareS < 0 ? broken(work.level) : "tight",
          [about("crew", crewOuting.outing.crew), about("eva", crewOuting.outing.eva)],
          {
            span: { startS: instant(worst.startS), endS: instant(worst.endS) },
            need: work.longestS,
            have: lengthS,
            unit: "s",
            sentence: `${works}; at most ${lasting(work.longestS, "down")} is allowed.`,
          },
        ),
      ];
    });
};

/** The longest stretch, the first of equals; null for an outing without work. */
export function longestOf(prepared: Prepared, crewOuting: CrewOuting): Interval | null {
  let longest: Interval | null = null;
  for (const { work } of spellsOf(crewOuting, prepared))
    if (!longest || work.endS - work.startS > longest.endS - longest.startS) longest = work;
  return longest;
}
