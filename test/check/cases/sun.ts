import { instant } from "../../../src/kernel/index.ts";
import { sunStretches } from "../../../src/physics/index.ts";
import type { Pairs } from "../pair.ts";
import { remote, task, tinyPlan } from "../tinyPlan.ts";

/** At 60 W on the equator the sun climbs through 5 to 14 degrees in this stay: about 17.7 h of it. */
export const range = { leastDeg: 5, greatestDeg: 14 };

export const site = { lonDeg: -60 };

const touchdownUtc = "2031-04-05T06:07:00Z";

export const lit = sunStretches(
  Date.parse(touchdownUtc),
  { latDeg: 0, lonDeg: -60, radiusM: 1_737_400 },
  range,
  {
    startS: instant(0),
    endS: instant(72_000),
  },
)[0]!;

/** Remote work of 600 s that ends `endS` after touchdown. */
export const plan = (endS: number, tightS = 0) =>
  tinyPlan({
    tasks: [task("photo", null, { sun: range })],
    placements: [remote("photo", endS - 600)],
    site,
    rules: { tightS },
    more: { body: { ephemeris: "moon" } },
  });

export const sun: Pairs = [
  {
    breaks: ["ends a second after the sun has climbed too high", plan(lit.endS + 1)],
    says: { need: 0, have: -1 },
    holds: ["ends as the sun reaches the limit", plan(lit.endS)],
  },
];
