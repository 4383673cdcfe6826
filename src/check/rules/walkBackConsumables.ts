import { instant, remembered } from "../../kernel/index.ts";
import type { Amounts } from "../../physics/index.ts";
import { CONSUMABLE_WORDS, evaName, lasting, met, timeLeft } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import { type Allowed, carried, type Moment, moments, whereWords } from "../reach.ts";
import type { CrewOuting } from "../crewouting.ts";

/**
 * walk-back-consumables: at every moment outside, each consumable less what the walk-back draws is at least its reserve. Where
 * the rule is a warning, a stock that would run out on the way home is still a breach (S9).
 */
export const walkBackConsumables: JudgeRule = ({ prepared, outs }) => {
  const { walkback, tightS } = prepared.plan.rules;
  return outs
    .flatMap((out) => out.crewOutings)
    .flatMap((crewOuting) => {
      const out = walkback.level === "warning" ? leastUntilOut(crewOuting) : null;
      const runsOut = out !== null && out.spareS < 0;
      const worst = runsOut ? out : leastToTell(crewOuting);
      if (!worst) return [];
      const { moment, allowed, spareS } = worst;
      if (spareS >= tightS) return [];
      const where = whereWords(prepared, moment);
      const who = `${crewOuting.walker.member.name} on ${evaName(prepared.plan, crewOuting.outing.eva)}`;
      const needs =
        moment.homeS === 0
          ? `${who} is back at ${where} at ${met(moment.atS)}`
          : `${who} needs ${lasting(moment.homeS, "up")} to walk back from ${where} at ${met(moment.atS)}`;
      const carries = runsOut
        ? `${CONSUMABLE_WORDS[allowed.by]} ${allowed.seconds < 0 ? "has run out by then" : `runs out after ${lasting(allowed.seconds, "down")} of walking back`}`
        : allowed.seconds < 0
          ? `the reserve of ${CONSUMABLE_WORDS[allowed.by]} is gone by then`
          : `${CONSUMABLE_WORDS[allowed.by]} above the reserve carries ${timeLeft(allowed.seconds)} of walking back`;
      return [
        finding(
          "walk-back-consumables",
          runsOut ? "breach" : spareS < 0 ? broken(walkback.level) : "tight",
          [about("crew", crewOuting.outing.crew), about("eva", crewOuting.outing.eva)],
          {
            span: { startS: instant(moment.atS), endS: instant(moment.atS + 1) },
            need: moment.homeS,
            have: allowed.seconds,
            unit: "s",
            sentence: `${needs}; ${carries}.`,
          },
        ),
      ];
    });
};

/**
 * The same, but away from the lander where the reserve holds at every moment: at the lander itself, where least is left of all stocks, the reserve
 * rules already say how much it is, and a close walk-back before must not be hidden by it. Null where there is none to tell of.
 */
const leastToTell = remembered((crewOuting: CrewOuting) => {
  const worst = leastAnywhere(crewOuting);
  return worst && worst.spareS < 0 ? worst : worstOf(crewOuting, crewOuting.walker.reserve, awayFromLander);
});

/** The moment with the least time to spare until a stock is down to its reserve; null where no walk-back is known. */
const leastAnywhere = remembered((crewOuting: CrewOuting) =>
  worstOf(crewOuting, crewOuting.walker.reserve, everywhere),
);

/** Least time to spare, s, of what a finding would tell of, and of the lander where nobody leaves it; undefined where no walk-back is known. */
export function spareOf(crewOuting: CrewOuting): number | undefined {
  return (leastToTell(crewOuting) ?? leastAnywhere(crewOuting))?.spareS;
}

/** The moment with the least time to spare until a stock is down to `kept`; away from the lander when several are equal. */
function worstOf(
  crewOuting: CrewOuting,
  kept: Amounts,
  counts: (moment: Moment) => boolean,
): { moment: Moment; allowed: Allowed; spareS: number } | null {
  let worst: { moment: Moment; allowed: Allowed; spareS: number } | null = null;
  for (const moment of moments(crewOuting)) {
    if (!counts(moment)) continue;
    const allowed = carried(crewOuting, moment.left, moment.slopeRad, kept);
    const spareS = allowed.seconds - moment.homeS;
    if (!worst || spareS < worst.spareS) worst = { moment, allowed, spareS };
  }
  return worst;
}

/** The same until a stock has run out, away from the lander: at the lander itself the reserve rules say what has run out. */
const leastUntilOut = remembered((crewOuting: CrewOuting) => worstOf(crewOuting, NOTHING, awayFromLander));

const NOTHING: Amounts = { oxygen: 0, co2: 0, water: 0, battery: 0 };
const everywhere = (): boolean => true;
const awayFromLander = ({ homeS }: Moment): boolean => homeS > 0;
