import { drinkingS } from "../../physics/index.ts";
import { evaName, lasting, stock } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";

/** drinking-water: from egress to ingress complete nobody drinks more than the suit holds, where that is known. */
export const drinkingWater: JudgeRule = ({ prepared, outs }) => {
  const { drinking, tightS } = prepared.plan.rules;
  return outs.flatMap(({ crewOutings }) =>
    crewOutings.flatMap(({ walker: { member, suit }, outing: { eva, crew, span } }) => {
      if (suit.drinkKg === undefined) return [];
      const outS = span.endS - span.startS;
      const lastsS = drinkingS(suit.drinkKg, drinking.kgH);
      if (lastsS - outS >= tightS) return [];
      const over = outS > lastsS;
      return [
        finding(
          "drinking-water",
          over ? broken(drinking.level) : "tight",
          [about("crew", crew), about("eva", eva)],
          {
            need: (outS / 3600) * drinking.kgH,
            have: suit.drinkKg,
            unit: "kg",
            sentence: `${member.name} on ${evaName(prepared.plan, eva)} is out ${lasting(outS, "up")}; drinking water of ${stock(suit.drinkKg, "kg", "down")} lasts ${lasting(lastsS, "down")}.`,
          },
        ),
      ];
    }),
  );
};
