import { coolingWaterKgS } from "./cooling.ts";
import { drinkingWaterKg, DRINKING_KG_H } from "./drinking.ts";
import { sharedEmergencyS } from "./emergency.ts";
import { absorbentHeatW, heatLoadW } from "./heatbalance.ts";
import { heatStorageS } from "./heatstore.ts";
import { purgeKg } from "./purge.ts";
import { co2KgPerJ, oxygenKgPerJ } from "./respiration.ts";
import type { SuitModel } from "./suit.ts";

/**
 * From what a figure comes: formula, inputs with units, source. The formula is arithmetic in the inputs' names, so that
 * whoever doubts the figure can work it out again; a test does.
 *
 * Range: those of the models that are named as sources. Not covered: rounding to whole units, which
 * suit.ts does to the safe side.
 */
export interface Explained {
  /** What it is: "oxygen drawn". */
  readonly of: string;
  readonly value: number;
  readonly unit: string;
  readonly formula: string;
  readonly inputs: readonly { readonly name: string; readonly value: number; readonly unit: string }[];
  /** The model's file in src/physics and where it comes from. */
  readonly source: string;
}

const WEIR = "respiration: Weir 1949, J Physiol 109:1-9";
const BALANCE = "heatbalance: sum of heats; absorbent heat of LiOH, value from memory";

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

/** Drinking water for `seconds` outside. */
export function explainDrinking(seconds: number): Explained {
  return {
    of: "drinking water",
    value: drinkingWaterKg(seconds),
    unit: "kg",
    formula: "seconds / 3600 * perHourKg",
    inputs: [input("seconds", seconds, "s"), input("perHourKg", DRINKING_KG_H, "kg/h")],
    source: "drinking: NASA-STD-3001 vol. 2, value from memory",
  };
}

/** Time until uncooled heat fills a body. */
export function explainHeatStorage(bodyKg: number, uncooledW: number): Explained {
  return {
    of: "time without cooling",
    value: heatStorageS(bodyKg, uncooledW),
    unit: "s",
    formula: "3 * 1000 * bodyKg / uncooledW",
    inputs: [input("bodyKg", bodyKg, "kg"), input("uncooledW", uncooledW, "W")],
    source: "heatstore: 3.0 kJ/kg, NASA-STD-3001 vol. 2, value from memory",
  };
}

/** Oxygen for a purge of `volumeM3` to `leftShare`. */
export function explainPurge(
  volumeM3: number,
  leftShare: number,
  pressurePa: number,
  temperatureK: number,
): Explained {
  return {
    of: "oxygen for the purge",
    value: purgeKg(volumeM3, leftShare, pressurePa, temperatureK),
    unit: "kg",
    formula: "Math.log(1 / leftShare) * volumeM3 * pressurePa * 0.031998 / (8.314462618 * temperatureK)",
    inputs: [
      input("volumeM3", volumeM3, "m3"),
      input("leftShare", leftShare, "share"),
      input("pressurePa", pressurePa, "Pa"),
      input("temperatureK", temperatureK, "K"),
    ],
    source: "purge: well-mixed vessel, ideal gas",
  };
}

function input(name: string, value: number, unit: string): Explained["inputs"][number] {
  return { name, value, unit };
}
