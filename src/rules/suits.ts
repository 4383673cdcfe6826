import type { FlightRule, Unit } from "./record.ts";

const reserve = (words: string, unit: Unit) =>
  ({
    words,
    sentence: "At ingress complete every suit still holds its reserve of each consumable.",
    decides: "the suit engineers",
    eases: { by: "%", most: 100 },
    causes: ["consumable"],
    numbers: { group: "reserve", keys: ["tight"] },
    amounts: { [unit]: "least" },
  }) as const satisfies FlightRule;

/** What both walk-back rules go by. */
const WALKBACK = {
  group: "walkback",
  keys: ["speedMs", "metabolicW", "emergencyReserveS"],
  limit: "emergencyReserveS",
} satisfies FlightRule["numbers"];

/** Flight rules on what a suit carries and a body bears. */
export const suitRules = {
  "oxygen-reserve": reserve("Oxygen reserve", "kg"),
  "co2-reserve": reserve("CO2 reserve", "kg"),
  "water-reserve": reserve("Cooling water reserve", "kg"),
  "battery-reserve": reserve("Battery reserve", "Wh"),
  "heat-storage": {
    words: "Heat stored in the body",
    sentence:
      "At every moment outside, the heat stored in the body (`physics/storedAfterJ`: all heat over what the cooling carries off, none at egress, spare cooling takes it out again) is at most the limit times body mass.",
    decides: "the crew surgeon",
    eases: null,
    causes: ["heat"],
    numbers: { group: "heat", keys: ["mostKjKg"] },
    amounts: { kJ: "most" },
  },
  "drinking-water": {
    words: "Drinking water",
    sentence: "From egress to ingress complete nobody drinks more than the suit holds, where that is known.",
    decides: "the crew surgeon",
    eases: null,
    causes: ["drinking"],
    numbers: { group: "drinking", keys: ["kgH"] },
    amounts: { kg: "least" },
  },
  "walk-back-emergency": {
    words: "Walk-back on emergency oxygen",
    sentence:
      "At every moment outside, the walk-back time is at most the emergency oxygen time less its reserve.",
    decides: "the flight director",
    eases: null,
    causes: ["walk-back-emergency"],
    numbers: WALKBACK,
    amounts: { s: "least" },
  },
  "walk-back-consumables": {
    words: "Walk-back on what is left",
    sentence:
      "At every moment outside, each consumable less what the walk-back draws is at least its reserve. Tested at both ends of every stretch, and for a way whose worst walk-back lies between its ends, that worst against what is left at its end.",
    decides: "the flight director",
    eases: null,
    causes: ["walk-back-consumables"],
    numbers: WALKBACK,
    amounts: { s: "least" },
  },
} as const satisfies Readonly<Record<string, FlightRule>>;
