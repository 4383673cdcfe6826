import type { Plan } from "../../plan/index.ts";
import type { ColourName } from "../theme/palette.ts";

/** How a crew member's ways are told apart: by colour, by pattern, and by the pattern's word. */
export interface CrewStyle {
  readonly colour: ColourName;
  readonly onColour: ColourName;
  readonly dash: readonly number[];
  readonly word: string;
}

const STYLES: readonly CrewStyle[] = [
  { colour: "accent", onColour: "on-accent", dash: [], word: "solid" },
  { colour: "tight", onColour: "on-tight", dash: [9, 5], word: "dashed" },
  { colour: "ink", onColour: "paper", dash: [2, 5], word: "dotted" },
  { colour: "breach", onColour: "on-breach", dash: [11, 4, 2, 4], word: "dash and dot" },
];

/** The style of a crew member by their place in the plan. */
export function crewStyle(plan: Plan, crew: string): CrewStyle {
  const at = plan.crew.findIndex((one) => one.id === crew);
  return STYLES[Math.max(0, at) % STYLES.length]!;
}

/** CSS pixels a way lies to the left of where it is walked, so that two who walk together both show. */
export function asidePx(plan: Plan, crew: string): number {
  return (
    2 +
    4 *
      Math.max(
        0,
        plan.crew.findIndex((one) => one.id === crew),
      )
  );
}
