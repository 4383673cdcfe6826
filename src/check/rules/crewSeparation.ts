import type { SeparationTrack } from "../../answers/index.ts";
import { instant } from "../../kernel/index.ts";
import { crewName, metres, evaName, listed, met } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import { closeBelow, DISTANCE_TOLERANCE_M } from "../thresholds.ts";

/** crew-separation: crew members of one EVA are never farther apart in a straight line. */
export const crewSeparation: JudgeRule = ({ prepared, separation }) => {
  const { greatestM, level } = prepared.plan.rules.separation;
  return separation.flatMap((track) => {
    const worst = farthest(track);
    if (!worst) return [];
    const over = worst.value > greatestM + DISTANCE_TOLERANCE_M;
    if (!over && !closeBelow(worst.value, greatestM)) return [];
    const names = listed(track.crew.map((id) => crewName(prepared.plan, id)));
    return [
      finding(
        "crew-separation",
        over ? broken(level) : "tight",
        [...track.crew.map((id) => about("crew", id)), about("eva", track.eva)],
        {
          span: { startS: worst.atS, endS: instant(worst.atS + 1) },
          need: greatestM,
          have: worst.value,
          unit: "m",
          sentence: `${names} are ${metres(worst.value, "up")} apart at ${met(worst.atS)} on ${evaName(prepared.plan, track.eva)}; at most ${metres(greatestM, "down")} is allowed.`,
        },
      ),
    ];
  });
};

/** Where they are farthest apart; null of an empty track. */
export function farthest(track: SeparationTrack): SeparationTrack["points"][number] | null {
  let worst: SeparationTrack["points"][number] | null = null;
  for (const point of track.points) if (!worst || point.value > worst.value) worst = point;
  return worst;
}
