import { distance } from "../../terrain/index.ts";
import { about, broken, finding, type FlightRule } from "../finding.ts";
import { endPointOf } from "../grounds.ts";
import { metres } from "../phrases.ts";
import { closeAbove, DISTANCE_TOLERANCE_M } from "../thresholds.ts";

/** blast-keep-out: an instrument's end place is at least so far from the lander. */
export const blastKeepOut: FlightRule = ({ prepared, placed }) => {
  const { leastM, level } = prepared.plan.rules.blast;
  const lander = prepared.plan.site.places[prepared.ways.lander];
  return placed.flatMap((one) => {
    const end = one.task.instrument ? endPointOf(prepared, one) : null;
    if (!end || !lander) return [];
    const have = distance(lander, end);
    const tooNear = have + DISTANCE_TOLERANCE_M < leastM;
    if (!tooNear && !closeAbove(have, leastM)) return [];
    return [
      finding(
        "blast-keep-out",
        tooNear ? broken(level) : "tight",
        [about("task", one.task.id), about("place", end.id)],
        {
          need: leastM,
          have,
          unit: "m",
          sentence: `${one.task.name} leaves an instrument ${metres(have, "down")} from the lander; at least ${metres(leastM, "up")} keeps it clear of the ascent blast.`,
        },
      ),
    ];
  });
};
