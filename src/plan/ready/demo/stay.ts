import { at } from "../clock.ts";
import type { StayInput } from "../parts.ts";

/**
 * A stay of 22 h 30 min, in the lunar morning: the computed sun climbs from 5.7 degrees at touchdown to 14.1 at
 * liftoff. Two outings with a short sleep between them; ingress to egress is 5 h 45 min at the least.
 *
 * Relay passes: an orbiter every 1 h 55 min, in sight for 1 h 9 min, so 60 % of the time.
 */
export const demoStay: StayInput = {
  touchdownUtc: "2034-11-14T23:20:00Z",
  lengthS: 81_000,
  blocks: [
    { id: "landing-checks", name: "Landing checks, snack", kind: "other", startS: at(0, 0), endS: at(0, 50) },
    { id: "donning-1", name: "Suits on for EVA 1", kind: "other", startS: at(0, 50), endS: at(1, 20) },
    {
      id: "recharge-suits",
      name: "Suits off and recharge",
      kind: "other",
      startS: at(8, 0),
      endS: at(8, 25),
    },
    { id: "supper", name: "Supper", kind: "meal", startS: at(8, 25), endS: at(8, 55) },
    { id: "sleep", name: "Sleep", kind: "sleep", startS: at(8, 55), endS: at(12, 55) },
    { id: "breakfast", name: "Breakfast", kind: "meal", startS: at(12, 55), endS: at(13, 15) },
    { id: "donning-2", name: "Suits on for EVA 2", kind: "other", startS: at(13, 15), endS: at(13, 45) },
    {
      id: "ascent-checks",
      name: "Stow and ascent checks",
      kind: "other",
      startS: at(21, 0),
      endS: at(22, 30),
    },
  ],
  relayPasses: Array.from({ length: 12 }, (_, orbit) => ({
    id: `pass-${orbit + 1}`,
    name: `Pass ${orbit + 1}`,
    startS: at(0, 25) + orbit * at(1, 55),
    endS: Math.min(at(0, 25) + orbit * at(1, 55) + at(1, 9), 81_000),
  })),
};
