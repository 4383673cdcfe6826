/**
 * What a plan starts with where suits and walking are not known: low, nominal and high of the literature, and with which of them a
 * plan starts. It starts at the nominal one or on the side of it that hurts less. The schema takes its defaults from here, setup
 * offers the three, and a test holds the plan to it.
 */
export interface Usual {
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
  /** What the schema starts with. */
  readonly starts: number;
  /** On which side of the nominal value a wrong guess hurts less; either: each side hurts something. */
  readonly safe: "low" | "high" | "either";
  readonly unit: string;
  /** What the low, nominal and high one mean, where that is more than little and much. */
  readonly means?: { readonly low?: string; readonly nominal?: string; readonly high?: string };
  /** Where the three come from. */
  readonly source: string;
}

/** By path in the plan, `*` for any entry of a list. */
export const USUAL = {
  "suits.*.leakKgH": {
    low: 0.005,
    nominal: 0.018,
    high: 0.036,
    starts: 0.018,
    safe: "high",
    unit: "kg/h",
    source:
      "Lunar EVA oxygen with leakage and purge, 0.092 and 0.110 kg per crew hour (NASA/TP-2015-218570 rev. 2 Table 4-69, as quoted), less 0.0741 for " +
      "1.06 MJ of work an hour. Low: a tight suit, project assumption.",
  },
  "suits.*.purgeKg": {
    low: 0,
    nominal: 0.035,
    high: 0.077,
    starts: 0.035,
    safe: "high",
    unit: "kg",
    means: { low: "purged from the lander" },
    source:
      "Well-mixed suit at 29.6 kPa: 30 l down to 5 % of the other gas; high: 50 l down to 2 % (project assumption).",
  },
  "suits.*.electricalW": {
    low: 35,
    nominal: 48.8,
    high: 69.8,
    starts: 50,
    safe: "high",
    unit: "W",
    source:
      "Packs that flew, battery over rated hours (published): 390 Wh in 8 h, 279 Wh in 4 h. Low: project assumption.",
  },
  "suits.*.insulationM2": {
    low: 0.1,
    nominal: 0.2,
    high: 0.3,
    starts: 0.2,
    safe: "high",
    unit: "m2",
    source: "Values from memory; in the sun more takes up more, in shadow it gives off more.",
  },
  "suits.*.respiratoryQuotient": {
    low: 0.8,
    nominal: 0.85,
    high: 0.9,
    starts: 0.85,
    safe: "either",
    unit: "",
    source:
      "Daily balances 0.87 (NASA RP-1324, 1994). A lower one takes more oxygen, a higher one makes more CO2. Low and high: project assumption.",
  },
  "suits.*.coolingKjKg": {
    low: 2400,
    nominal: 2430,
    high: 2501,
    starts: 2430,
    safe: "low",
    unit: "kJ/kg",
    source:
      "Liquid feed boiling at about 30 °C; high: at 0 °C. Values from memory. Never 2834, which is ice to vapour.",
  },
  "suits.*.absorbentKjKg": {
    low: 2030,
    nominal: 3030,
    high: 3030,
    starts: 3030,
    safe: "high",
    unit: "kJ/kg",
    means: {
      low: "the water made leaves as vapour",
      nominal: "the water made condenses in the pack",
      high: "as nominal",
    },
    source:
      "LiOH: 2030 kJ for each kg of CO2 with the water made as vapour; condensing 0.409 kg of water at 2442 kJ/kg frees 1000 more. Values from memory.",
  },
  "rules.walking.speedMs": {
    low: 0.61,
    nominal: 0.9,
    high: 1.5,
    starts: 0.9,
    safe: "low",
    unit: "m/s",
    means: { low: "whole-outing average", high: "fast" },
    source:
      "Suited walks timed in 1/6 g, 3.3 to 5.5 km/h (published); whole-outing average about 2.2 km/h (as quoted).",
  },
  "rules.walking.metabolicW": {
    low: 272,
    nominal: 295.5,
    high: 369.4,
    starts: 295.5,
    safe: "high",
    unit: "W",
    means: { low: "riding counted in" },
    source:
      "Means of NASA SP-368 (1975) sec. II ch. 4, rows from memory; low: of all hours with riding, NASA TN D-7883 Table I. High: 25 % more, as a single task may differ.",
  },
  "rules.walking.rateAtMs": {
    low: 0.61,
    nominal: 0.9,
    high: 1.5,
    starts: 0.9,
    safe: "low",
    unit: "m/s",
    source:
      "No measurement says at which speed the mean on foot was walked: project assumption. A lower speed makes faster walking dearer.",
  },
  "rules.walkback.speedMs": {
    low: 0.61,
    nominal: 0.9,
    high: 1.5,
    starts: 0.9,
    safe: "low",
    unit: "m/s",
    source: "As walking: no faster than planned, since nobody is fitter on the way back. Project choice.",
  },
  "rules.walkback.metabolicW": {
    low: 295.5,
    nominal: 313.8,
    high: 392.3,
    starts: 313.8,
    safe: "high",
    unit: "W",
    source:
      "Low: mean on foot. Nominal: egress and ingress, NASA SP-368 (1975) sec. II ch. 4, rows from memory. High: 25 % more.",
  },
  "rules.carry.greatestN": {
    low: 40.5,
    nominal: 81,
    high: 308,
    starts: 81,
    safe: "low",
    unit: "N",
    means: { low: "25 kg on the Moon", nominal: "50 kg on the Moon", high: "190 kg on the Moon" },
    source:
      "Project choice. Low: 25 kg, the reference mass of ISO 11228-1 (value from memory), since what must be started and stopped counts by its mass, as on Earth. " +
      "Nominal: twice that. High: 420 Earth-pounds were carried by one person once (published).",
  },
} as const satisfies Readonly<Record<string, Usual>>;

/** The usual values of the field at `path`, with `*` for any entry of a list; null where there are none. */
export function usualOf(path: string): Usual | null {
  return (USUAL as Readonly<Record<string, Usual>>)[path] ?? null;
}
