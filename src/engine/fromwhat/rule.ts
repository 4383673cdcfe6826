import type { FromAnswer } from "../../answers/index.ts";
import type { Explained } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import { FLIGHT_RULES, givenNumbers, type RuleId } from "../../rules/index.ts";

/** Where the numbers come from that no plan can change. */
const FIXED: Partial<Record<RuleId, string>> = {
  "walking-physics": " Speeds: suited walks timed in 1/6 g, published (physics/suitedspeed).",
};

/** What a rule says and where its numbers come from. */
export function fromRule(plan: Plan, rule: RuleId): FromAnswer {
  const { words, sentence, numbers } = FLIGHT_RULES[rule];
  const figures = givenNumbers(plan, rule).map(({ key, value, unit, level, source }): Explained => ({
    of: words,
    value,
    unit,
    formula: "given",
    inputs: [{ name: "given", value, unit }],
    source: `${key} of the plan's flight rules; breaking it is a ${level}. ${source}`,
  }));
  const own = numbers
    ? ""
    : (FIXED[rule] ?? " Its numbers are those of the plan's tasks, links, EVAs and site.");
  return { says: `${sentence.replaceAll("`", "")}${own}`, figures, sums: null };
}
