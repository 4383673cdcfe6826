import { invariant } from "../kernel/index.ts";
import { type Plan, ruleSource, type RuleLevel } from "../plan/index.ts";
import { RULE_NUMBERS, type RuleNumber } from "./numbers.ts";
import { FLIGHT_RULES, type RuleId } from "./registry.ts";

/** A number of a rule as a plan has it. */
export interface GivenNumber extends RuleNumber {
  readonly key: string;
  readonly value: number;
  readonly level: RuleLevel;
  /** Where it comes from. */
  readonly source: string;
}

/** The numbers that the flight rules of `plan` give for a rule; none where tasks, links, EVAs and the site say what it asks for. */
export function givenNumbers(plan: Pick<Plan, "rules" | "suits">, rule: RuleId): GivenNumber[] {
  const { numbers } = FLIGHT_RULES[rule];
  if (!numbers) return [];
  const { level, ...values } = plan.rules[numbers.group];
  const source = ruleSource(plan, numbers.group);
  const valueOf = new Map<string, unknown>(Object.entries(values));
  const known = new Map<string, RuleNumber>(Object.entries(RULE_NUMBERS[numbers.group].numbers));
  return numbers.keys.map((key) => {
    const [number, value] = [known.get(key), valueOf.get(key)];
    invariant(
      number && typeof value === "number",
      `the flight rules have no number "${numbers.group}.${key}"`,
    );
    return { ...number, key, value, level, source };
  });
}
