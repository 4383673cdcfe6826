import { isEqual } from "../kernel/index.ts";
import { suitSchema } from "./crew.ts";
import type { Plan } from "./plan.ts";
import { type Rules, rulesSchema } from "./rules.ts";

/** A group of the flight rules' numbers that says where they come from. */
type Sourced = { [Key in keyof Rules]-?: Rules[Key] extends { source: string } ? Key : never }[keyof Rules];

const USUAL_RULES = rulesSchema.parse({});
const USUAL_RESERVE = suitSchema.shape.reserve.parse({});

/**
 * Where the numbers of a group of flight rules come from, in the planner's words or those of the default; and that this is not given where the
 * default's words stand beside numbers that are not the default's.
 */
export function ruleSource({ rules, suits }: Pick<Plan, "rules" | "suits">, group: Sourced): string {
  const source = rules[group].source.trim();
  if (source === "") return "not given";
  if (source !== USUAL_RULES[group].source) return source;
  // The reserves themselves stand with the suits.
  const own = group === "reserve" && suits.some(({ reserve }) => !isEqual(reserve, USUAL_RESERVE));
  return own || !isEqual(numbersOf(rules[group]), numbersOf(USUAL_RULES[group]))
    ? "not given: the numbers are not those of the default"
    : source;
}

function numbersOf(group: Rules[Sourced]): object {
  return Object.fromEntries(Object.entries(group).filter(([key]) => key !== "level" && key !== "source"));
}
