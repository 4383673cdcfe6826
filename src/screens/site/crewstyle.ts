import type { Plan } from "../../plan/index.ts";
import type { ColourName } from "../theme/palette.ts";

/** How a crew member's ways are told apart: by colour, by pattern, and by the pattern's word. */
export interface CrewStyle {
  readonly colour: ColourName;
  readonly dash: readonly number[];
  readonly word: string;
}

export const CREW_STYLES: readonly CrewStyle[] = [
  { colour: "crew-one", dash: [], word: "solid" },
  { colour: "crew-two", dash: [9, 5], word: "dashed" },
  { colour: "crew-three", dash: [2, 5], word: "dotted" },
  { colour: "crew-four", dash: [11, 4, 2, 4], word: "dash and dot" },
];

/** The style of a crew member by their place in the plan. */
export function crewStyle(plan: Plan, crew: string): CrewStyle {
  const at = plan.crew.findIndex((one) => one.id === crew);
  return CREW_STYLES[Math.max(0, at) % CREW_STYLES.length]!;
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
