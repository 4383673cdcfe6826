import type { Interval } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import { lasting, met, skyUnknownWords } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { runsWords } from "../names.ts";
import { nearestOf, outsideOf, slipS } from "../spans.ts";

/**
 * relay: a relay task lies inside one relay pass, or one stretch with the Earth over its horizon where that is a
 * link.
 */
export const relay: JudgeRule = ({ prepared, placed }) => {
  const { rules } = prepared.plan;
  return placed.flatMap((one) => {
    const { task, span } = one;
    if (!task.relay) return [];
    const { relay: passes = [], isEarthUnknown } = prepared.sky(task);
    const spareS = slipS(passes, span);
    if (spareS >= rules.tightS) return [];
    const nearest = nearestOf(passes, span);
    const outsideS = nearest ? outsideOf(nearest, span) : null;
    const runs = runsWords(one);
    const unseen = isEarthUnknown ? unseenWords(prepared.plan) : "";
    return [
      finding("relay", spareS >= 0 ? "tight" : "breach", [about("task", task.id)], {
        span,
        need: nearest ? 0 : null,
        have: spareS >= 0 ? spareS : outsideS === null ? null : -outsideS,
        unit: nearest ? "s" : "none",
        sentence:
          spareS >= 0
            ? `${runs}, ${lasting(spareS, "down")} before the relay pass ends.`
            : `${runs}${outsideWords(nearest, outsideS)}${unseen}`,
      }),
    ];
  });
};

/** By how much a task misses the pass that is nearest to it. */
function outsideWords(nearest: Interval | undefined, outsideS: number | null): string {
  if (!nearest || outsideS === null) return " and needs the relay; the stay has no relay pass.";
  return `, outside the relay pass ${met(nearest.startS)} to ${met(nearest.endS)} by ${lasting(outsideS, "up")}.`;
}

/** That there might be a link that nobody knows of, and why. */
function unseenWords(plan: Plan): string {
  const skyless = skyUnknownWords(plan);
  return ` Whether the Earth is in view from there is unknown${skyless ? ` ${skyless}` : ": no heights are known"}.`;
}
