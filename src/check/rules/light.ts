import { angle } from "../../words/index.ts";
import { skyFindings, sunUnknown } from "../skyfindings.ts";
import type { JudgeRule } from "../finding.ts";
import type { Prepared } from "../prepared.ts";

/**
 * light: from start to end the ground at the task's place and end place is in the sun, or in shadow, as it asks;
 * unknown is a breach.
 */
export const light: JudgeRule = ({ prepared, placed }) =>
  placed.flatMap((one) => {
    const { light: want } = one.task;
    if (!want) return [];
    return skyFindings(prepared, one, "light", prepared.sky(one.task).light ?? null, {
      wanted: want === "lit" ? "its ground in the sun" : "its ground in shadow",
      unknown: lightUnknown(prepared, one.span.startS),
    });
  });

/** `sun up 2.5°, shadow unknown: no heights are known there`; the elevation rounded down. */
function lightUnknown({ plan, sunAt }: Prepared, atS: number): string {
  const sun = sunAt(atS);
  if (!sun) return sunUnknown(plan);
  const sunWords = `sun ${sun.elevationDeg > 0 ? "up" : "down"} ${angle(Math.abs(sun.elevationDeg), "down")}`;
  return `${sunWords} over a level horizon, shadow unknown: no heights are known there`;
}
