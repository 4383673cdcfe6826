import { about, finding, type FlightRule } from "../finding.ts";
import { lasting, met } from "../phrases.ts";
import { nearestOf, outsideOf, slipS } from "../spans.ts";

/**
 * sun: from start to end the sun elevation is inside the task's range; unknown where the body has no ephemeris or
 * outside the stay, and unknown is a breach.
 */
export const sun: FlightRule = ({ prepared, placed }) => {
  const { tightS } = prepared.plan.rules;
  return placed.flatMap(({ task, span }) => {
    if (!task.sun) return [];
    const range = `sun ${task.sun.leastDeg} to ${task.sun.greatestDeg} degrees up`;
    const runs = `${task.name} runs ${met(span.startS)} to ${met(span.endS)}`;
    const say = (level: "breach" | "tight", have: number | null, sentence: string) => [
      finding("sun", level, [about("task", task.id)], {
        span,
        need: have === null ? null : 0,
        have,
        unit: have === null ? "none" : "s",
        sentence,
      }),
    ];
    const sunlit = prepared.sunlit(task.sun);
    if (sunlit === null) {
      return say(
        "breach",
        null,
        `${task.name} wants the ${range}; where the sun stands is unknown on this body.`,
      );
    }
    const spareS = slipS(sunlit, span);
    if (spareS >= tightS) return [];
    if (spareS >= 0) {
      return say("tight", spareS, `${runs}, ${lasting(spareS, "down")} before the ${range} ends.`);
    }
    const nearest = nearestOf(sunlit, span);
    if (!nearest)
      return say("breach", null, `${runs} and wants the ${range}; that is never so in this stay.`);
    const outsideS = outsideOf(nearest, span);
    const when = `that is so from ${met(nearest.startS)} to ${met(nearest.endS)}`;
    return say(
      "breach",
      -outsideS,
      `${runs} and wants the ${range}; ${when}: outside by ${lasting(outsideS, "up")}.`,
    );
  });
};
