import { lasting } from "../../words/index.ts";

/** How late or early something is, in words; a begun minute of being late counts whole, one of being early not at all. */
export function lateWords(lateS: number): string {
  if (lateS > 0) return `${lasting(Math.ceil(lateS / 60) * 60, "given")} late`;
  return lateS <= -60 ? `${lasting(Math.floor(-lateS / 60) * 60, "given")} early` : "on time";
}
