import { instant } from "../../kernel/index.ts";
import { about, broken, finding, type FlightRule } from "../finding.ts";
import { evaName, placeName } from "../names.ts";
import { lasting, met } from "../phrases.ts";
import { type Moment, moments } from "../reach.ts";

/** walk-back-emergency: at every moment outside the walk-back is at most the emergency oxygen time less its reserve. */
export const walkBackEmergency: FlightRule = ({ prepared, outs }) => {
  const { walkback, tightS } = prepared.plan.rules;
  return outs
    .flatMap((out) => out.walks)
    .flatMap((walk) => {
      const have = walk.walker.emergencyS;
      let worst: Moment | undefined;
      for (const moment of moments(walk)) if (!worst || moment.homeS > worst.homeS) worst = moment;
      if (!worst) return [];
      const isBroken = worst.homeS > have;
      if (!isBroken && (worst.homeS === 0 || have - worst.homeS >= tightS)) return [];
      const where = `${worst.peak ? "the way to " : ""}${placeName(prepared, worst.place)}`;
      const who = `${walk.walker.member.name} on ${evaName(prepared, walk.outing.eva)}`;
      const needs = `${who} needs ${lasting(worst.homeS, "up")} to walk back from ${where} at ${met(worst.atS)}`;
      const allows = `emergency oxygen less its reserve gives ${lasting(have, "down")}`;
      return [
        finding(
          "walk-back-emergency",
          isBroken ? broken(walkback.level) : "tight",
          [about("crew", walk.outing.crew), about("eva", walk.outing.eva)],
          {
            span: { startS: instant(worst.atS), endS: instant(worst.atS + 1) },
            need: worst.homeS,
            have,
            unit: "s",
            sentence: isBroken
              ? `${needs}; ${allows}.`
              : `${needs}; ${allows}, ${lasting(have - worst.homeS, "down")} to spare.`,
          },
        ),
      ];
    });
};
