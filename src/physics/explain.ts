import type { Explained } from "../kernel/index.ts";
import { coolingWaterKgS } from "./cooling.ts";
import { sharedEmergencyS } from "./emergency.ts";
import { absorbentHeatW, heatLoadW } from "./heatbalance.ts";
import { ABSORPTANCE, environmentHeatW, hottestDeg, SOLAR_W_M2 } from "./environment.ts";
import { co2KgPerJ, oxygenKgPerJ } from "./respiration.ts";
import type { ElevationRange } from "./stretches.ts";
import type { SuitModel } from "./suit.ts";
import { type Effort, MEASURED_KCAL_H, metabolicW as rateOf } from "./workrate.ts";

/**
 * Figures with what they come from. Range: those of the models that are named as sources. Not covered: rounding to whole units,
 * which suit.ts does to the safe side.
 */

const WEIR = "respiration: Weir 1949, J Physiol 109:1-9";
const BALANCE = "heatbalance: sum of heats; absorbent heat of the suit, LiOH by default, value from memory";

/**
 * How each consumable is drawn at `metabolicW`, per hour: oxygen, CO2 capacity, cooling water, battery, and the heat.
 */
export function explainDraw(suit: SuitModel, metabolicW: number): readonly Explained[] {
  const oxygenKgJ = oxygenKgPerJ(suit.respiratoryQuotient);
  const co2KgJ = co2KgPerJ(suit.respiratoryQuotient);
  const absorbentW = absorbentHeatW(metabolicW * co2KgJ, suit.absorbentKjKg);
  const { electricalW, environmentW, leakKgH, coolingKjKg, absorbentKjKg } = suit;
  const heatW = heatLoadW({ metabolicW, electricalW, absorbentW, environmentW });
  const work = input("metabolicW", metabolicW, "W");
  return [
    {
      of: "oxygen drawn",
      value: metabolicW * oxygenKgJ * 3600 + leakKgH,
      unit: "kg/h",
      formula: "metabolicW * oxygenKgJ * 3600 + leakKgH",
      inputs: [work, input("oxygenKgJ", oxygenKgJ, "kg/J"), input("leakKgH", leakKgH, "kg/h")],
      source: WEIR,
    },
    {
      of: "CO2 taken up",
      value: metabolicW * co2KgJ * 3600,
      unit: "kg/h",
      formula: "metabolicW * co2KgJ * 3600",
      inputs: [work, input("co2KgJ", co2KgJ, "kg/J")],
      source: WEIR,
    },
    {
      of: "heat load",
      value: heatW,
      unit: "W",
      formula: "metabolicW + electricalW + environmentW + metabolicW * co2KgJ * absorbentKjKg * 1000",
      inputs: [
        work,
        input("electricalW", electricalW, "W"),
        input("environmentW", environmentW, "W"),
        input("co2KgJ", co2KgJ, "kg/J"),
        input("absorbentKjKg", absorbentKjKg, "kJ/kg"),
      ],
      source: BALANCE,
    },
    {
      of: "cooling water drawn",
      value: coolingWaterKgS(heatW, coolingKjKg) * 3600,
      unit: "kg/h",
      formula: "Math.max(0, heatW) / (coolingKjKg * 1000) * 3600",
      inputs: [input("heatW", heatW, "W"), input("coolingKjKg", coolingKjKg, "kJ/kg")],
      source: "cooling: Q / lambda, liquid feed",
    },
    {
      of: "battery drawn",
      value: electricalW,
      unit: "Wh/h",
      formula: "electricalW",
      inputs: [input("electricalW", electricalW, "W")],
      source: "battery: power times time",
    },
  ];
}

/** The metabolic rate of `effort` by somebody whose rates are `factor` times the mean. */
export function explainRate(effort: Effort, factor: number): Explained {
  const given = typeof effort === "object";
  const rate = given
    ? input("rateW", effort.watts, "W, as the task gives it")
    : input("rateKcalH", MEASURED_KCAL_H[effort], `kcal/h, measured mean of ${effort} work`);
  return {
    of: "metabolic rate",
    value: rateOf(effort, factor),
    unit: "W",
    formula: given ? "rateW * factor" : "rateKcalH * 4184 / 3600 * factor",
    inputs: [rate, input("factor", factor, "of this crew member")],
    source: given
      ? "workrate: given by the plan"
      : "workrate: NASA SP-368 (1975) sec. II ch. 4, value from memory; a single task may differ by 25 %",
  };
}

/** Heat from the surroundings that is reckoned with while the sun stays inside `sun`; at any elevation where it is not known. */
export function explainSurroundings(insulationM2: number, sun: ElevationRange | null): Explained {
  const { leastDeg, greatestDeg } = sun ?? { leastDeg: -90, greatestDeg: 90 };
  const atDeg = hottestDeg(leastDeg, greatestDeg);
  const lit = atDeg > 0;
  const upright = "takenUp * solarWM2 * Math.cos(sunDeg * Math.PI / 180) / Math.PI";
  const ground = "0.5 * (0.84 * 0.88 + takenUp * 0.12) * solarWM2 * Math.sin(sunDeg * Math.PI / 180)";
  return {
    of: "heat from the surroundings, the greatest while the EVA may be out",
    value: Math.ceil(environmentHeatW(lit ? atDeg : null, insulationM2)),
    unit: "W",
    formula: lit
      ? `Math.ceil(insulationM2 * ((${upright} + ${ground}) / 0.84 - 5.670374419e-8 * 300 ** 4))`
      : "Math.ceil(insulationM2 * -5.670374419e-8 * 300 ** 4)",
    inputs: [
      input("insulationM2", insulationM2, "m2, area times effective emittance"),
      ...(lit
        ? [
            input("sunDeg", atDeg, "degrees up, where the heat is greatest"),
            input("solarWM2", SOLAR_W_M2, "W/m2, the sun at its nearest in the year"),
            input("takenUp", ABSORPTANCE, "of sunlight taken up, a tenth of the cloth under dust"),
          ]
        : []),
    ],
    source: "environment: upright insulated cylinder in balance on sunlit ground, project assumption",
  };
}

/** Emergency oxygen: what it lasts alone, shared, and how far that is at a level speed. */
export function explainEmergency(aloneS: number, reserveS: number, speedMs: number): readonly Explained[] {
  const alone = input("aloneS", aloneS, "s");
  return [
    {
      of: "emergency oxygen with shared cooling",
      value: sharedEmergencyS(aloneS),
      unit: "s",
      formula: "Math.floor(aloneS * 75 / 30)",
      inputs: [alone],
      source: "emergency: 30 min alone, about 75 min shared, packs that flew, published",
    },
    {
      of: "farthest walk back on emergency oxygen",
      value: Math.max(0, aloneS - reserveS) * speedMs,
      unit: "m",
      formula: "Math.max(0, aloneS - reserveS) * speedMs",
      inputs: [alone, input("reserveS", reserveS, "s"), input("speedMs", speedMs, "m/s")],
      source: "reach: be able to return on emergency oxygen, published in prose",
    },
  ];
}

function input(name: string, value: number, unit: string): Explained["inputs"][number] {
  return { name, value, unit };
}
