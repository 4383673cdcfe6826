import type { Finding } from "../answers/index.ts";
import type { Plan, Rules } from "../plan/index.ts";
import { FLIGHT_RULES, type NumberGroup } from "../rules/index.ts";

/** Units of a finding's amounts that the numbers of the rules stand in as they are, by the last letter of a number's name. */
const LETTERS: Readonly<Record<string, string>> = { s: "S", m: "M" };

/**
 * The plan for whoever looks for what is to come: what the day has broken already (`broken`, the judge's findings on it alone) no schedule
 * mends, and one that is looked for under the rule as it stands would take back what has happened. A greatest length or distance that
 * was passed is then as wide as it was passed, so that nothing to come goes beyond it; another rule with numbers is a warning. Whoever
 * offers what comes of it holds it against the rules as they stand.
 */
export function pastLimits(plan: Plan, broken: readonly Finding[]): Plan {
  const rules = broken.reduce(easedBy, plan.rules);
  return rules === plan.rules ? plan : { ...plan, rules };
}

function easedBy(rules: Rules, { rule, level, have, unit }: Finding): Rules {
  const { numbers, amounts } = FLIGHT_RULES[rule];
  if (level !== "breach" || numbers === null) return rules;
  const key = numbers.limit ?? numbers.keys[0]!;
  const isGreatest = amounts[unit] === "most" && key.endsWith(LETTERS[unit] ?? "?");
  return isGreatest && have !== null
    ? withGroup(rules, numbers.group, (group) => ({
        [key]: Math.max(Number(group[key] ?? 0), Math.ceil(have)),
      }))
    : withGroup(rules, numbers.group, () => ({ level: "warning" }));
}

function withGroup(
  rules: Rules,
  name: NumberGroup,
  otherwise: (group: Readonly<Record<string, unknown>>) => object,
): Rules {
  const group = rules[name];
  return { ...rules, [name]: { ...group, ...otherwise({ ...group }) } };
}
