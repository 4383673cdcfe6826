import type { Pairs } from "../pair.ts";
import { at, eva, place, task, tinyPlan } from "../tinyPlan.ts";

/** An instrument taken from near the lander to `eastM` east of it. */
export const plan = (eastM: number, instrument = true, level: "breach" | "warning" = "breach") =>
  tinyPlan({
    places: [place("lander", 0, 0), place("near", 10, 0), place("spot", eastM, 0)],
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("deploy", "near", { endPlace: "spot", instrument })],
    placements: [at("deploy", 2000)],
    rules: { blast: { leastM: 91.4, level } },
  });

export const blastKeepOut: Pairs = [
  {
    breaks: ["91.3 m from the lander, 91.4 m asked for", plan(91.3)],
    says: { need: 91.4, have: 91.3 },
    holds: ["91.4 m from the lander", plan(91.4)],
  },
];
