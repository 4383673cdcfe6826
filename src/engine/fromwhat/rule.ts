import type { FromAnswer } from "../../answers/index.ts";
import { RULE_SENTENCES, RULE_WORDS } from "../../check/index.ts";
import type { Explained } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { RuleId } from "../../rules/index.ts";

/** A number of the flight rules: where it stands in the plan's rules, and its unit. */
type RuleNumber = readonly [group: keyof NumberedRules, key: string, unit: string];
type NumberedRules = Omit<Plan["rules"], "tightS" | "startGridS">;

const WALKBACK: readonly RuleNumber[] = [
  ["walkback", "speedMs", "m/s on the level"],
  ["walkback", "metabolicW", "W"],
  ["walkback", "emergencyReserveS", "s of emergency oxygen kept"],
];
const RESERVE: readonly RuleNumber[] = [
  ["reserve", "tight", "share of the stock below which a margin is tight"],
];

/** Numbers behind the rules that have their own; the others ask what tasks, links, EVAs and the site say. */
const NUMBERS: Partial<Record<RuleId, readonly RuleNumber[]>> = {
  "oxygen-reserve": RESERVE,
  "co2-reserve": RESERVE,
  "water-reserve": RESERVE,
  "battery-reserve": RESERVE,
  "heat-storage": [["heat", "mostKjKg", "kJ for each kg of body"]],
  "drinking-water": [["drinking", "kgH", "kg an hour"]],
  "walk-back-emergency": WALKBACK,
  "walk-back-consumables": WALKBACK,
  "eva-distance": [["distance", "evaM", "m"]],
  "stay-distance": [["distance", "stayM", "m"]],
  "crew-separation": [["separation", "greatestM", "m"]],
  carry: [["carry", "greatestN", "N for each crew member"]],
  "return-mass": [["returnMass", "greatestKg", "kg"]],
  "blast-keep-out": [["blast", "leastM", "m"]],
  "work-and-rest": [
    ["work", "longestS", "s of work"],
    ["work", "restS", "s of rest"],
  ],
  duty: [["duty", "stayS", "s"]],
  recharge: [["recharge", "leastS", "s"]],
};

/** Where the numbers come from that no plan can change. */
const FIXED: Partial<Record<RuleId, string>> = {
  "walking-physics": " Speeds: suited walks timed in 1/6 g, published (physics/suitedspeed).",
};

/** What a rule says and where its numbers come from. */
export function fromRule(plan: Plan, rule: RuleId): FromAnswer {
  const figures = (NUMBERS[rule] ?? []).map(([group, key, unit]): Explained => {
    const standing = plan.rules[group];
    const value = (standing as unknown as Readonly<Record<string, number>>)[key]!;
    return {
      of: RULE_WORDS[rule],
      value,
      unit,
      formula: "given",
      inputs: [{ name: "given", value, unit }],
      source: `${key} of the plan's flight rules; breaking it is a ${standing.level}. ${standing.source}`,
    };
  });
  const own =
    figures.length === 0
      ? (FIXED[rule] ?? " Its numbers are those of the plan's tasks, links, EVAs and site.")
      : "";
  return { says: `${RULE_SENTENCES[rule].replaceAll("`", "")}${own}`, figures, sums: null };
}
