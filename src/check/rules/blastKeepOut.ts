import { isSwitchedOff, leavesInstrument } from "../../plan/index.ts";
import { distance } from "../../terrain/index.ts";
import { metres } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import { endPointOf } from "../grounds.ts";
import type { Walkthrough } from "../walkthrough.ts";
import { closeAbove, DISTANCE_TOLERANCE_M } from "../thresholds.ts";

/**
 * blast-keep-out: an instrument's end place is at least so far from the lander. A deployment that is switched off is never
 * a breach, but where it ends too near that is said.
 */
export const blastKeepOut: JudgeRule = (walkthrough) => {
  const { leastM, level } = walkthrough.prepared.plan.rules.blast;
  return clearancesIn(walkthrough).flatMap(({ one, isOff, end, have }) => {
    const tooNear = have + DISTANCE_TOLERANCE_M < leastM;
    if (!tooNear && (isOff || !closeAbove(have, leastM))) return [];
    const far = metres(have, "down");
    const clear = `at least ${metres(leastM, "up")} keeps it clear of the ascent blast`;
    return [
      finding(
        "blast-keep-out",
        tooNear && !isOff ? broken(level) : "tight",
        [about("task", one.task.id), about("place", end.id)],
        {
          need: leastM,
          have,
          unit: "m",
          sentence: isOff
            ? `${one.task.name} is a deployment ${far} from the lander with its instrument switched off: not checked against the ascent blast. If it leaves one, ${clear}.`
            : `${one.task.name} leaves an instrument ${far} from the lander; ${clear}.`,
        },
      ),
    ];
  });
};

/** How far from the lander each instrument ends up, m; `isOff` for a deployment that is switched off. */
export function clearancesIn({ prepared, placed }: Walkthrough) {
  const lander = prepared.plan.site.places[prepared.ways.lander];
  return placed.flatMap((one) => {
    const isOff = isSwitchedOff(one.task);
    const end = isOff || leavesInstrument(one.task) ? endPointOf(prepared, one) : null;
    return end && lander ? [{ one, isOff, end, have: distance(lander, end) }] : [];
  });
}
