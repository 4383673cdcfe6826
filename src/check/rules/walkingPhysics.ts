import { FASTEST_MS, USUAL_MOST_MS } from "../../physics/index.ts";
import { speed } from "../../words/index.ts";
import { finding, type JudgeRule } from "../finding.ts";

/**
 * walking-physics: nobody walks faster on the level than the fastest that was timed in a suit. Not a rule to be held as a warning:
 * whatever else is reckoned from a speed nobody can walk is wrong. Speeds above the usual ones, and a walk-back faster than
 * the plan walks, are tight.
 */
export const walkingPhysics: JudgeRule = ({ prepared: { plan }, outs }) => {
  if (outs.length === 0) return [];
  const planned = plan.rules.walking.speedMs;
  const back = plan.rules.walkback.speedMs;
  const fastest = Math.max(planned, back);
  const words = [...pace("Planned walking", planned), ...pace("The walk-back", back)];
  if (back > planned)
    words.push(`The walk-back at ${speed(back)} is faster than the plan walks, ${speed(planned)}.`);
  if (words.length === 0) return [];
  return [
    finding("walking-physics", fastest > FASTEST_MS ? "breach" : "tight", [], {
      need: FASTEST_MS,
      have: fastest,
      unit: "m/s",
      sentence: words.join(" "),
    }),
  ];
};

/** What is to be said of walking at `speedMs`, if anything. */
function pace(what: string, speedMs: number): string[] {
  const is = `${what} at ${speed(speedMs)} is faster than`;
  if (speedMs > FASTEST_MS) return [`${is} anybody was timed in a suit, 7.0 km/h (1.944 m/s).`];
  if (speedMs > USUAL_MOST_MS) return [`${is} suited walks usually were, 5.5 km/h (1.527 m/s) at most.`];
  return [];
}
