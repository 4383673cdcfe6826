import {
  explainWalk,
  FASTEST_MS,
  levelW,
  metabolicW,
  slopeW,
  USUAL_MOST_MS,
  walkbackW,
} from "../../src/physics/index.ts";
import type { Effort } from "../../src/physics/workrate.ts";
import { runningW } from "../../src/physics/running.ts";
import { rulesSchema } from "../../src/plan/rules.ts";
import { type Case, POUND_KG } from "./case.ts";
import { lightWalkW } from "./models/lightwalk.ts";
import { type LoadedWalk, loadedWalkW, pandolfW, santeeCorrectionW } from "./models/pandolf.ts";

/** Work rate, walking and running: watts. */

const MEASURED = "NASA SP-368 (1975) sec. II ch. 4";
const PANDOLF = "Pandolf, Givoni & Goldman 1977, J Appl Physiol 43:577-581";
const SANTEE = "Santee et al. 2001/2003";

const hours: readonly (readonly [Effort, number])[] = [
  ["egress-ingress", 52.83],
  ["deployment", 28.18],
  ["geology", 52.47],
  ["riding", 25.28],
];

function meanOfCategories(): number {
  const total = hours.reduce((sum, [, each]) => sum + each, 0);
  return hours.reduce((sum, [effort, each]) => sum + metabolicW(effort, 1) * each, 0) / total;
}

const walk = (
  bodyKg: number,
  loadKg: number,
  speedMs: number,
  gradePercent: number,
  terrain: number,
): LoadedWalk => ({
  bodyKg,
  loadKg,
  speedMs,
  gradePercent,
  terrain,
});
const degrees = (deg: number): number => (deg * Math.PI) / 180;
const rate = (effort: Effort, value: number): Case => ({
  model: "workrate",
  what: `mean rate, ${String(effort)}`,
  source: MEASURED,
  provenance: effort === "overall" ? "published" : "value from memory",
  unit: "W",
  value,
  ours: () => metabolicW(effort, 1),
  within: 0.06,
});
const earth = (one: LoadedWalk, value: number, provenance: Case["provenance"]): Case => ({
  model: "reference/pandolf",
  what: `${one.bodyKg} kg with ${one.loadKg} kg, ${one.speedMs} m/s, ${one.gradePercent} %, terrain ${one.terrain}`,
  source: PANDOLF,
  provenance,
  unit: "W",
  value,
  ours: () => pandolfW(one),
  within: 0.001,
});
const light = (terrain: number, value: number): Case => ({
  model: "reference/lightwalk",
  what: `75 kg with 82 kg, 0.9 m/s, level, 1.62 m/s2, terrain ${terrain}`,
  source: "project assumption",
  provenance: "arithmetic",
  unit: "W",
  value,
  ours: () => lightWalkW(walk(75, 82, 0.9, 0, terrain), 1.62),
  within: 0.06,
});
const slope = (deg: number, value: number): Case => ({
  model: "slope",
  what: `114.5 kg, 1 m/s, 1.62 m/s2, ${deg} degrees`,
  source: `form of ${SANTEE}; elsewhere than on Earth a project assumption`,
  provenance: "arithmetic",
  unit: "W",
  value,
  ours: () => slopeW(114.5, 1.62, 1, degrees(deg)),
  within: 0.001,
});
/** What is measured on foot: everything but riding, weighted by hours. */
function meanOnFootW(): number {
  const onFoot = hours.filter(([effort]) => effort !== "riding");
  const total = onFoot.reduce((sum, [, each]) => sum + each, 0);
  return onFoot.reduce((sum, [effort, each]) => sum + metabolicW(effort, 1) * each, 0) / total;
}
const defaults = rulesSchema.parse({});
/** 75 kg in a suit of 82 kg on the level of the Moon, by the default rate. */
const level = (speedMs: number): number =>
  levelW(defaults.walking, { factor: 1, massKg: 157 }, 1.62, speedMs);
/** What carrying so much by hand adds on the level. */
const carriedW = (loadKg: number): number => slopeW(loadKg, 1.62, 0.9, 0);
const SPEEDS = "suited walks timed in 1/6 g";
const RUNNING = "Pavei, Biancardi & Minetti 2015, J Appl Physiol 119:93-100";

export const workCases: readonly Case[] = [
  rate("egress-ingress", 313.8),
  rate("deployment", 283.6),
  rate("geology", 283.6),
  rate("riding", 143),
  rate("overall", 272),
  {
    model: "workrate",
    what: "mean of the four categories weighted by hours against the published mean of all, 234 kcal/h, 0.3 %",
    source: `${MEASURED}; NASA TN D-7883 Table I`,
    provenance: "published",
    unit: "kcal/h",
    value: 234,
    ours: () => (meanOfCategories() * 3600) / 4184,
    within: 0.003 * 234,
  },
  {
    model: "workrate",
    what: "mean of the four categories weighted by hours",
    source: MEASURED,
    provenance: "arithmetic",
    unit: "kcal/h",
    value: 233.4,
    ours: () => (meanOfCategories() * 3600) / 4184,
    within: 0.05,
  },
  {
    model: "workrate",
    what: "mean of all, energy in an hour",
    source: "NASA TN D-7883 Table I",
    provenance: "published",
    unit: "kJ/h",
    value: 980,
    ours: () => metabolicW("overall", 1) * 3.6,
    within: 1.5,
  },
  {
    model: "workrate",
    what: "lightest category within the rates seen",
    source: "NASA SP-368 (1975) sec. II ch. 4, abstract: 100 to 500 kcal/h",
    provenance: "published",
    unit: "kcal/h",
    value: [100, 500],
    ours: () => (metabolicW("riding", 1) * 3600) / 4184,
    within: 0,
  },
  earth(walk(70, 20, 1, 5, 1), 412.194, "published"),
  earth(walk(70, 20, 1.1, 0, 1), 283.044, "published"),
  earth(walk(80, 35, 0.9, 0, 1.5), 373.611, "arithmetic"),
  earth(walk(70, 20, 1.1, -8, 1), 5.844, "arithmetic"),
  {
    model: "reference/pandolf",
    what: "the -8 % case with the downhill correction, by the two formulas as they stand",
    source: SANTEE,
    provenance: "as quoted",
    unit: "W",
    value: 213.482,
    ours: () => pandolfW(walk(70, 20, 1.1, -8, 1)) - santeeCorrectionW(walk(70, 20, 1.1, -8, 1)),
    within: 0.001,
  },
  {
    model: "reference/pandolf",
    what: "the -8 % case, corrected, held and floored",
    source: SANTEE,
    provenance: "as quoted",
    unit: "W",
    value: 213.482,
    ours: () => loadedWalkW(walk(70, 20, 1.1, -8, 1)),
    within: 0.001,
  },
  {
    model: "reference/pandolf",
    what: "unscaled on the Moon over the measured mean: 75 kg with 82 kg, 0.9 m/s, terrain 1.5",
    source: `${PANDOLF}; ${MEASURED}`,
    provenance: "arithmetic",
    unit: "times",
    value: 2.8,
    ours: () => pandolfW(walk(75, 82, 0.9, 0, 1.5)) / metabolicW("overall", 1),
    within: 0.05,
  },
  light(1.5, 258.8),
  light(1.8, 282),
  {
    model: "reference/lightwalk",
    what: "mean of the two terrains against the measured mean, 5 %",
    source: MEASURED,
    provenance: "published",
    unit: "W",
    value: 272,
    ours: () =>
      (lightWalkW(walk(75, 82, 0.9, 0, 1.5), 1.62) + lightWalkW(walk(75, 82, 0.9, 0, 1.8), 1.62)) / 2,
    within: 13.6,
  },
  slope(5, 56.583),
  slope(10, 112.735),
  slope(-5, 17.664),
  slope(-10, 16.021),
  {
    model: "walk",
    what: "level walking with 400 Earth-pounds carried less the same with 75: small and inconsistent",
    source: "NASA CR-1402",
    provenance: "published",
    unit: "W",
    value: 0,
    ours: () => carriedW(400 * POUND_KG) - carriedW(75 * POUND_KG),
    within: 0.001,
  },
  {
    model: "walk",
    what: "mean on foot: egress and ingress, deployment, geology weighted by hours, riding left out",
    source: MEASURED,
    provenance: "arithmetic",
    unit: "W",
    value: 295.5,
    ours: meanOnFootW,
    within: 0.1,
  },
  {
    model: "walk",
    what: "default rate on the level at the default planned speed: the mean on foot",
    source: MEASURED,
    provenance: "value from memory",
    unit: "W",
    value: 295.5,
    ours: () => level(defaults.walking.speedMs),
    within: 0.1,
  },
  {
    model: "walk",
    what: "walking back by default costs at least as much as walking out: times",
    source: MEASURED,
    provenance: "arithmetic",
    unit: "times",
    value: [1, 1.2],
    ours: () =>
      walkbackW(
        defaults.walkback.metabolicW,
        defaults.walking,
        { factor: 1, massKg: 157 },
        1.62,
        defaults.walkback.speedMs,
        0,
      ) / level(defaults.walking.speedMs),
    within: 0,
  },
  {
    model: "walk",
    what: "75 kg in 82 kg at 1.5 m/s: 295.5 + 2.7 sqrt(1.62 / 9.80665) 157 (1.5^2 - 0.9^2)",
    source: "scaled formula of reference/lightwalk, project assumption",
    provenance: "arithmetic",
    unit: "W",
    value: 543.6,
    ours: () => level(1.5),
    within: 0.1,
  },
  {
    model: "walk",
    what: "at the upper end of the usual suited speeds, 5.5 km/h: within the rates seen, 100 to 500 kcal/h",
    source: `${MEASURED}, abstract; ${SPEEDS}`,
    provenance: "published",
    unit: "kcal/h",
    value: [100, 500],
    ours: () => (level(USUAL_MOST_MS) * 3600) / 4184,
    within: 0,
  },
  {
    model: "walk",
    what: "at the fastest suited speed, 7.0 km/h: for each kg and metre at least the cost of running",
    source: RUNNING,
    provenance: "published",
    unit: "J/kg/m",
    value: [2, 4],
    ours: () => level(FASTEST_MS) / (157 * FASTEST_MS),
    within: 0,
  },
  {
    model: "walk",
    what: "a rate of 50 W given for 1.5 m/s: reckoned by metres, 2 J for each kg of 157 and metre",
    source: RUNNING,
    provenance: "arithmetic",
    unit: "W",
    value: 471,
    ours: () => levelW({ metabolicW: 50, rateAtMs: 1.5 }, { factor: 1, massKg: 157 }, 1.62, 1.5),
    within: 0.001,
  },
  {
    model: "explainwalk",
    what: "75 kg in 82 kg at 1.5 m/s, as it is explained, with 10 W for a slope",
    source: "scaled formula of reference/lightwalk, project assumption",
    provenance: "arithmetic",
    unit: "W",
    value: 553.6,
    ours: () => explainWalk(defaults.walking, { factor: 1, massKg: 157 }, 1.62, 1.5, 10).value,
    within: 0.1,
  },
  {
    model: "suitedspeed",
    what: "fastest timed",
    source: SPEEDS,
    provenance: "published",
    unit: "km/h",
    value: 7,
    ours: () => FASTEST_MS * 3.6,
    within: 1e-9,
  },
  {
    model: "suitedspeed",
    what: "default planned speed and walk-back speed lie in or under the usual 3.3 to 5.5 km/h: the faster of the two",
    source: SPEEDS,
    provenance: "published",
    unit: "km/h",
    value: [0, 5.5],
    ours: () => Math.max(defaults.walking.speedMs, defaults.walkback.speedMs) * 3.6,
    within: 0,
  },
  {
    model: "running",
    what: "per kg and metre, 82 kg at 2.5 m/s",
    source: RUNNING,
    provenance: "published",
    unit: "J/kg/m",
    value: 2,
    ours: () => runningW(82, 2.5) / (82 * 2.5),
    within: 0.05,
  },
];
