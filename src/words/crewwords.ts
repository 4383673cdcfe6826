import { percent } from "./amount.ts";

/** The rules of a crew that acts. */
type ActingRule = "goesAhead" | "breaksOff" | "leavesOut" | "restsByRule";

/** Which of them a crew plays by, and how careful it is: 0 with likely durations ahead, 1 with high ones. */
type CrewRules = Readonly<Record<ActingRule, boolean>> & { readonly caution: number };

/** What a crew that acts does on a simulated day, a sentence a rule (O7 to O10). */
export const ACTING_WORDS: Readonly<Record<ActingRule, string>> = {
  goesAhead:
    "Goes ahead when ready: never before a window, never in an earlier opening than the planned one, never so early that a lag breaks.",
  breaksOff: "Breaks a task off in time to be home inside every limit, at the pace known since egress.",
  leavesOut: "Leaves optional work out when with it a must-do task ahead could no longer begin in time.",
  restsByRule: "Rests as the work limit asks on the day: lateness never eats a rest.",
};

/** What a crew does that carries on regardless. */
export const CARRIES_ON_WORDS =
  "The crew carries on regardless: nobody starts before the planned start, leaves anything out or breaks anything off.";

/** How long tasks ahead are taken to be when optional work is left out for must-do work. */
export function cautionWords(caution: number): string {
  if (caution === 0) return "durations ahead as likely";
  if (caution === 1) return "durations ahead as high";
  return `durations ahead ${percent(caution, "given")} of the way from likely to high`;
}

/** The rules by which a crew acts, in the order in which they are said. */
export function actingRules(crew: CrewRules): readonly ActingRule[] {
  return (Object.keys(ACTING_WORDS) as ActingRule[]).filter((rule) => crew[rule]);
}

/** How the crew acts, in sentences: what a chance is nothing worth without. */
export function crewSays(crew: CrewRules): string {
  const rules = actingRules(crew);
  if (rules.length === 0) return CARRIES_ON_WORDS;
  const caution = crew.leavesOut ? ` Caution: ${cautionWords(crew.caution)}.` : "";
  return `The crew acts. ${rules.map((rule) => ACTING_WORDS[rule]).join(" ")}${caution}`;
}
