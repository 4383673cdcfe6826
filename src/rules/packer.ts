import { FLIGHT_RULES, type RuleId } from "./registry.ts";

/**
 * A rule as the packer tells of it. It tests some together: reserve is all that bounds an outing's length, consumables and the longest EVA;
 * link are links that are no lags; totals are the sums of the stay.
 */
export type PackerRule = RuleId | "reserve" | "link" | "totals";

const TOGETHER: Readonly<Record<Exclude<PackerRule, RuleId>, string>> = {
  reserve: "reserves or the longest EVA",
  link: "links between tasks",
  totals: "EVA time, distance or stores of the stay",
};

/** A rule's name inside a sentence: `work and rest`, `EVA times`. */
export function ruleInWords(rule: PackerRule): string {
  if (rule === "reserve" || rule === "link" || rule === "totals") return TOGETHER[rule];
  // Its name is made for a list of rules, not for what breaks.
  if (rule === "link-lag") return "times between tasks";
  const { words } = FLIGHT_RULES[rule];
  // Not of an abbreviation.
  return /^[A-Z][a-z]/.test(words) ? `${words.charAt(0).toLowerCase()}${words.slice(1)}` : words;
}
