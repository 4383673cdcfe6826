import type { Finding } from "../../answers/index.ts";
import { instant, type Interval } from "../../kernel/index.ts";
import { type Consumable, CONSUMABLES } from "../../physics/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { RuleId } from "../../rules/index.ts";
import { CONSUMABLE_WORDS, evaName, lasting, met, stock } from "../../words/index.ts";
import { readable, unitOf } from "../amounts.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import { spare } from "../margins.ts";
import type { CrewOuting } from "../crewouting.ts";

/** The rule of each consumable. */
export const RESERVE_RULE: Readonly<Record<Consumable, RuleId>> = {
  oxygen: "oxygen-reserve",
  co2: "co2-reserve",
  water: "water-reserve",
  battery: "battery-reserve",
};

/**
 * oxygen-, co2-, water-, battery-reserve: at ingress complete every suit still holds its reserve of each. A stock that runs
 * out is a breach even where the rule is a warning (S9).
 */
export const reserveRules: JudgeRule = ({ prepared, outs }) =>
  outs
    .flatMap((out) => out.crewOutings)
    .flatMap((crewOuting) =>
      CONSUMABLES.flatMap((consumable) => atIngress(prepared.plan, crewOuting, consumable) ?? []),
    );

/** What is to be said of a stock at ingress complete; null where there is enough of it. */
function atIngress(plan: Plan, crewOuting: CrewOuting, consumable: Consumable): Finding | null {
  const { level, tight } = plan.rules.reserve;
  const { reserve, full } = crewOuting.walker;
  const above = spare(crewOuting, consumable);
  if (above >= 0 && above >= tight * full[consumable]) return null;
  const need = readable(consumable, reserve[consumable]);
  const have = readable(consumable, crewOuting.left.at(-1)![consumable]);
  const short = above < 0 ? broken(level) : "tight";
  return finding(
    RESERVE_RULE[consumable],
    have < 0 ? "breach" : short,
    [about("crew", crewOuting.outing.crew), about("eva", crewOuting.outing.eva)],
    {
      span: above < 0 ? below(crewOuting, consumable, reserve[consumable]) : null,
      need,
      have,
      unit: unitOf(consumable),
      sentence: sentenceOf(plan, crewOuting, consumable, { need, have, above }),
    },
  );
}

/** What is wrong with a stock at ingress: `need` and `have` in the consumable's unit, `above` as it is counted. */
function sentenceOf(
  plan: Plan,
  crewOuting: CrewOuting,
  consumable: Consumable,
  { need, have, above }: { readonly need: number; readonly have: number; readonly above: number },
): string {
  const unit = unitOf(consumable);
  const called = CONSUMABLE_WORDS[consumable];
  const who = `${crewOuting.walker.member.name} on ${evaName(plan, crewOuting.outing.eva)}`;
  const reserve = stock(need, unit, "up");
  if (have < 0)
    return `${who} ${runsOut(crewOuting, consumable)}, ${stock(-have, unit, "up")} short; the reserve is ${reserve}.`;
  if (above < 0)
    return `${who} comes in with ${stock(have, unit, "down")} of ${called}; the reserve is ${reserve}.`;
  return `${who} comes in with only ${stock(readable(consumable, above), unit, "down")} of ${called} above the reserve of ${reserve}.`;
}

/** `runs out of oxygen at 3:12 MET, 47 min before ingress`: the moment rounded down, the time without rounded up. */
function runsOut(crewOuting: CrewOuting, consumable: Consumable): string {
  const { startS, endS } = below(crewOuting, consumable, 0);
  const called = consumable === "battery" ? "battery power" : CONSUMABLE_WORDS[consumable];
  return `runs out of ${called} at ${met(startS)}, ${lasting(endS - startS, "up")} before ingress`;
}

/** From the moment from which less than `least` is left to ingress complete. */
function below(crewOuting: CrewOuting, consumable: Consumable, least: number): Interval {
  const { startS, endS } = crewOuting.outing.span;
  if (crewOuting.left[0]![consumable] < least) return { startS, endS };
  const k = crewOuting.steps.findIndex((_, index) => crewOuting.left[index + 1]![consumable] < least);
  const step = crewOuting.steps[k];
  if (!step) return crewOuting.outing.span;
  const before = crewOuting.left[k]![consumable] - least;
  const rate = (crewOuting.left[k]![consumable] - crewOuting.left[k + 1]![consumable]) / step.seconds;
  return { startS: instant(step.drawnFromS + Math.max(0, Math.floor(before / rate))), endS };
}
