import { lasting } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";

/** duty: EVA time of one crew member in the stay. */
export const duty: JudgeRule = ({ prepared, crewOutingsOf }) => {
  const { duty: rule, tightS } = prepared.plan.rules;
  return [...crewOutingsOf].flatMap(([crew, crewOutings]) => {
    const outS = crewOutings.reduce((sum, { outing: { span } }) => sum + (span.endS - span.startS), 0);
    const spareS = rule.stayS - outS;
    if (spareS >= tightS) return [];
    return [
      finding("duty", spareS < 0 ? broken(rule.level) : "tight", [about("crew", crew)], {
        need: rule.stayS,
        have: outS,
        unit: "s",
        sentence: `${crewOutings[0]!.walker.member.name} is out ${lasting(outS, "up")} in the stay; at most ${lasting(rule.stayS, "down")} is allowed.`,
      }),
    ];
  });
};
