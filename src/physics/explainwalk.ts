import type { Explained } from "../kernel/index.ts";
import { levelW, type LevelRate, type OnFoot } from "./walk.ts";

/**
 * From what the metabolic rate of walking comes, as walk.ts has it. Range: as walk.ts. Not covered: what walk.ts does not
 * cover; where the slope's share comes from, which is slope.ts.
 */

const SOURCE =
  "walk: given rate; growth with speed Pandolf, Givoni & Goldman 1977 scaled to this gravity (project assumption); at least 2 J/kg/m, " +
  "Pavei, Biancardi & Minetti 2015";
const LEVEL =
  "Math.max(rateW * factor + hard * 1.5 * 1.8 * Math.sqrt(gravityMs2 / 9.80665) * massKg * Math.max(0, speedMs ** 2 - rateAtMs ** 2), " +
  "hard * 2 * massKg * speedMs)";

/** The rate of `who` walking a way at `speedMs` whose slope adds `slopeW`. */
export function explainWalk(
  rate: LevelRate,
  who: OnFoot,
  gravityMs2: number,
  speedMs: number,
  slopeW: number,
): Explained {
  return {
    of: "metabolic rate of walking",
    value: levelW(rate, who, gravityMs2, speedMs) + slopeW,
    unit: "W",
    formula: `${LEVEL} + slopeW`,
    inputs: [
      ...inputs(rate, who, gravityMs2, speedMs),
      input("slopeW", slopeW, "W for the slope of the way"),
    ],
    source: SOURCE,
  };
}

/** The rate of `who` walking back at `speedMs`, `givenW` being the plan's rate for it, where the way home's slope adds `slopeW`. */
export function explainWalkbackRate(
  givenW: number,
  rate: LevelRate,
  who: OnFoot,
  gravityMs2: number,
  speedMs: number,
  slopeW: number,
): Explained {
  return {
    of: "metabolic rate of walking back",
    value: Math.max(givenW * who.factor, levelW(rate, who, gravityMs2, speedMs)) + slopeW,
    unit: "W",
    formula: `Math.max(givenW * factor, ${LEVEL}) + slopeW`,
    inputs: [
      input("givenW", givenW, "W, the plan's rate for walking back"),
      ...inputs(rate, who, gravityMs2, speedMs),
      input("slopeW", slopeW, "W for the slope of the way home"),
    ],
    source: SOURCE,
  };
}

function inputs(
  { metabolicW, rateAtMs }: LevelRate,
  { factor, massKg }: OnFoot,
  gravityMs2: number,
  speedMs: number,
): Explained["inputs"] {
  return [
    input("rateW", metabolicW, "W, the plan's rate on the level"),
    input("rateAtMs", rateAtMs, "m/s that it belongs to"),
    input("speedMs", speedMs, "m/s walked"),
    input("factor", factor, "of this crew member"),
    input("hard", Math.max(1, factor), "the factor where it is above 1"),
    input("massKg", massKg, "kg of body and suit"),
    input("gravityMs2", gravityMs2, "m/s2"),
  ];
}

function input(name: string, value: number, unit: string): Explained["inputs"][number] {
  return { name, value, unit };
}
