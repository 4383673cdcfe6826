import { instant } from "../../kernel/index.ts";
import { evaName, heat, met, watts } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import { closeBelow } from "../thresholds.ts";

/** heat-storage: at every moment outside, the heat stored in the body is at most the limit times body mass. */
export const heatStorage: JudgeRule = ({ prepared, outs }) => {
  const { level } = prepared.plan.rules.heat;
  return outs.flatMap(({ crewOutings }) =>
    crewOutings.flatMap(({ walker, outing: { eva, crew }, steps, storedJ }) => {
      // Heat only grows or only falls while a step lasts, so the most is at an end of one.
      const mostJ = Math.max(...storedJ);
      const over = mostJ > walker.storageJ;
      const at = steps[storedJ.indexOf(mostJ) - 1];
      if (!at || (!over && !closeBelow(mostJ, walker.storageJ))) return [];
      return [
        finding("heat-storage", over ? broken(level) : "tight", [about("crew", crew), about("eva", eva)], {
          span: { startS: instant(at.drawnFromS), endS: instant(at.drawnToS) },
          need: walker.storageJ / 1000,
          have: mostJ / 1000,
          unit: "kJ",
          sentence: `${walker.member.name} on ${evaName(prepared.plan, eva)} has stored ${heat(mostJ / 1000, "up")} of heat by ${met(at.drawnToS)}; at most ${heat(walker.storageJ / 1000, "down")} is allowed, and cooling carries off ${watts(walker.coolingW)}.`,
        }),
      ];
    }),
  );
};
