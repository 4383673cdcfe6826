import type { Rules } from "../plan/index.ts";

/** The flight rules' numbers in the plan: how each is called, written and read. The compiler asks for what is missing. */

/** A group of numbers with one level and one source. */
export type NumberGroup = {
  [Key in keyof Rules]-?: Rules[Key] extends { level: string } ? Key : never;
}[keyof Rules];

/** A number's name in its group. */
export type NumberKey<Group extends NumberGroup> = string & Exclude<keyof Rules[Group], "level" | "source">;

export interface RuleNumber {
  /** What it is, behind the group's name. */
  readonly words: string;
  /** How people write it: a plain number in a unit, a share as percent, or a length of time. */
  readonly written: "m" | "m/s" | "W" | "°" | "kJ/kg" | "kg/h" | "N" | "kg" | "" | "%" | "h:mm";
  /** The unit it stands in, in words. */
  readonly unit: string;
}

/** Every group in the order of setup. */
export const RULE_NUMBERS: {
  readonly [Group in NumberGroup]: {
    readonly name: string;
    readonly numbers: Readonly<Record<NumberKey<Group>, RuleNumber>>;
  };
} = {
  walking: {
    name: "Walking",
    numbers: {
      speedMs: { words: "planned speed", written: "m/s", unit: "m/s on the level" },
      metabolicW: { words: "metabolic rate", written: "W", unit: "W" },
      rateAtMs: { words: "speed that this rate belongs to", written: "m/s", unit: "m/s" },
      detour: { words: "way over straight line", written: "", unit: "times the straight line" },
      greatestSlopeDeg: { words: "steepest way", written: "°", unit: "degrees" },
      greatestDownDeg: { words: "steepest way down on a height grid", written: "°", unit: "degrees" },
      greatestAcrossDeg: { words: "steepest ground across on a height grid", written: "°", unit: "degrees" },
    },
  },
  reserve: {
    name: "Reserves",
    numbers: {
      tight: { words: "tight below", written: "%", unit: "share of the stock below which a margin is tight" },
    },
  },
  walkback: {
    name: "Walk-back",
    numbers: {
      speedMs: { words: "speed", written: "m/s", unit: "m/s on the level" },
      metabolicW: { words: "metabolic rate", written: "W", unit: "W" },
      emergencyReserveS: {
        words: "emergency oxygen left",
        written: "h:mm",
        unit: "s of emergency oxygen kept",
      },
    },
  },
  separation: {
    name: "Crew separation",
    numbers: { greatestM: { words: "at most", written: "m", unit: "m" } },
  },
  distance: {
    name: "Distance walked",
    numbers: {
      evaM: { words: "in one EVA", written: "m", unit: "m" },
      stayM: { words: "in the stay", written: "m", unit: "m" },
    },
  },
  blast: {
    name: "Ascent blast",
    numbers: { leastM: { words: "instruments clear of it by", written: "m", unit: "m" } },
  },
  work: {
    name: "Work and rest",
    numbers: {
      longestS: { words: "longest stretch", written: "h:mm", unit: "s of work" },
      restS: { words: "rest of at least", written: "h:mm", unit: "s of rest" },
    },
  },
  duty: {
    name: "EVA time in the stay",
    numbers: { stayS: { words: "at most", written: "h:mm", unit: "s" } },
  },
  heat: {
    name: "Stored heat",
    numbers: {
      mostKjKg: { words: "at most for each kg of body", written: "kJ/kg", unit: "kJ for each kg of body" },
    },
  },
  drinking: {
    name: "Drinking water",
    numbers: { kgH: { words: "for each hour outside", written: "kg/h", unit: "kg an hour" } },
  },
  carry: {
    name: "Carried by hand",
    numbers: {
      greatestN: { words: "weight for each crew member", written: "N", unit: "N for each crew member" },
    },
  },
  recharge: {
    name: "Recharge",
    numbers: { leastS: { words: "between EVAs at least", written: "h:mm", unit: "s" } },
  },
  returnMass: {
    name: "Return mass",
    numbers: { greatestKg: { words: "at most", written: "kg", unit: "kg" } },
  },
};
