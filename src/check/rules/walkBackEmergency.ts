import { instant, remembered } from "../../kernel/index.ts";
import { evaName, lasting, met, timeLeft } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import { type Moment, moments, whereWords } from "../reach.ts";
import type { CrewOuting } from "../crewouting.ts";

/**
 * walk-back-emergency: at every moment outside the walk-back is at most the emergency oxygen time less its reserve. One that is
 * longer than all of the emergency oxygen is a breach even where the rule is a warning (S9).
 */
export const walkBackEmergency: JudgeRule = ({ prepared, outs }) => {
  const { walkback, tightS } = prepared.plan.rules;
  return outs
    .flatMap((out) => out.crewOutings)
    .flatMap((crewOuting) => {
      const have = crewOuting.walker.emergencyS;
      const worst = longestWalkBack(crewOuting);
      if (!worst) return [];
      const isBroken = worst.homeS > have;
      const lastsS = crewOuting.walker.suit.emergencyOxygenS;
      const isOut = worst.homeS > lastsS;
      if (!isBroken && (worst.homeS === 0 || have - worst.homeS >= tightS)) return [];
      const where = whereWords(prepared, worst);
      const who = `${crewOuting.walker.member.name} on ${evaName(prepared.plan, crewOuting.outing.eva)}`;
      const needs = `${who} needs ${lasting(worst.homeS, "up")} to walk back from ${where} at ${met(worst.atS)}`;
      const allows = `emergency oxygen less its reserve gives ${timeLeft(have)}`;
      return [
        finding(
          "walk-back-emergency",
          isOut ? "breach" : isBroken ? broken(walkback.level) : "tight",
          [about("crew", crewOuting.outing.crew), about("eva", crewOuting.outing.eva)],
          {
            span: { startS: instant(worst.atS), endS: instant(worst.atS + 1) },
            need: worst.homeS,
            have,
            unit: "s",
            sentence: isOut
              ? `${needs}; ${lastsS === 0 ? "there is no emergency oxygen at all" : `emergency oxygen runs out after ${lasting(lastsS, "down")}, its reserve counted in`}.`
              : isBroken
                ? `${needs}; ${allows}.`
                : `${needs}; ${allows}, ${lasting(have - worst.homeS, "down")} to spare.`,
          },
        ),
      ];
    });
};

/** The moment with the longest walk-back, the first of equals; null where none is known. */
export const longestWalkBack = remembered((crewOuting: CrewOuting): Moment | null => {
  let worst: Moment | null = null;
  for (const moment of moments(crewOuting)) if (!worst || moment.homeS > worst.homeS) worst = moment;
  return worst;
});
