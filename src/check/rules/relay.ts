import { lasting, met, skyUnknownWords } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { nearestOf, outsideOf, slipS } from "../spans.ts";

/**
 * relay: a relay task lies inside one relay pass, or one stretch with the Earth over its horizon where that is a
 * link.
 */
export const relay: JudgeRule = ({ prepared, placed }) => {
  const { rules } = prepared.plan;
  const skyless = skyUnknownWords(prepared.plan);
  return placed.flatMap(({ task, span }) => {
    if (!task.relay) return [];
    const { relay: passes = [], isEarthUnknown } = prepared.sky(task);
    const spareS = slipS(passes, span);
    if (spareS >= rules.tightS) return [];
    const runs = `${task.name} runs ${met(span.startS)} to ${met(span.endS)}`;
    const nearest = nearestOf(passes, span);
    const outsideS = nearest ? outsideOf(nearest, span) : null;
    const sentence =
      spareS >= 0
        ? `${runs}, ${lasting(spareS, "down")} before the relay pass ends.`
        : nearest
          ? `${runs}, outside the relay pass ${met(nearest.startS)} to ${met(nearest.endS)} by ${lasting(outsideS!, "up")}.`
          : `${runs} and needs the relay; the stay has no relay pass.`;
    const unseen =
      spareS < 0 && isEarthUnknown
        ? ` Whether the Earth is in view from there is unknown${skyless ? ` ${skyless}` : ": no heights are known"}.`
        : "";
    return [
      finding("relay", spareS >= 0 ? "tight" : "breach", [about("task", task.id)], {
        span,
        need: nearest ? 0 : null,
        have: spareS >= 0 ? spareS : outsideS === null ? null : -outsideS,
        unit: nearest ? "s" : "none",
        sentence: `${sentence}${unseen}`,
      }),
    ];
  });
};
