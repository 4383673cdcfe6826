import type { Plan } from "../../../src/plan/index.ts";
import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "../tinyPlan.ts";

/**
 * EV1 alone works 1000 s at 300 W at the lander: no walking, no airlock work. With half of each stock as reserve, the
 * stock that just does is twice what 1000 s draw.
 *
 * Oxygen at RQ 0.85: 300 * 1.4276e-3 / (4.8811 * 4184) kg/s = 20 970.96 up to 20 971 micrograms/s -> 2 * 20 971 000.
 * CO2: 300 * 0.85 * 1.96348e-3 / (4.8811 * 4184) kg/s = 24 516.4 up to 24 517 micrograms/s -> 2 * 24 517 000.
 * Water, no absorbent heat: (300 + 36) W / 2000 kJ/kg = 168 000 micrograms/s -> 2 * 0.168 kg.
 * Battery: 36 W * 1000 s = 10 Wh -> 20 Wh.
 */
const STOCKS = { oxygenKg: 0.041942, co2Kg: 0.049034, waterKg: 0.336, batteryWh: 20 };

export function plan(suit: TinyParts["suit"], rules: TinyParts["rules"] = {}): Plan {
  return tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
    tasks: [task("work", "lander", { effort: { watts: 300 }, duration: { likelyS: 1000 } })],
    placements: [at("work", 0)],
    // The walk-back rule asks for the same reserve at the lander; as a warning it leaves the stage to this rule.
    rules: { walkback: { level: "warning" }, ...rules },
    suit: {
      leakKgH: 0,
      electricalW: 36,
      coolingKjKg: 2000,
      absorbentKjKg: 0,
      reserve: { oxygen: 0.5, co2: 0.5, water: 0.5, battery: 0.5 },
      ...STOCKS,
      ...suit,
    },
  });
}

export const exact = plan({});

export const oxygenReserve: Pairs = [
  // One microgram less in stock: 41 941 999 less 20 971 000 leaves 20 970 999, half rounded up is 20 971 000.
  {
    breaks: ["a microgram less than needed", plan({ oxygenKg: 0.041941999 })],
    says: { need: 0.020971, have: 0.020970999 },
    holds: ["exactly the reserve is left", exact],
  },
];

export const co2Reserve: Pairs = [
  {
    breaks: ["a microgram less than needed", plan({ co2Kg: 0.049033999 })],
    says: { need: 0.024517, have: 0.024516999 },
    holds: ["exactly the reserve is left", exact],
  },
];

export const waterReserve: Pairs = [
  {
    breaks: ["a microgram less than needed", plan({ waterKg: 0.335999999 })],
    says: { need: 0.168, have: 0.167999999 },
    holds: ["exactly the reserve is left", exact],
  },
];

export const batteryReserve: Pairs = [
  // 19.8 Wh less 10 Wh leaves 9.8; half of 19.8 is 9.9.
  {
    breaks: ["a fifth of a watt-hour less", plan({ batteryWh: 19.8 })],
    says: { need: 9.9, have: 9.8 },
    holds: ["exactly the reserve is left", exact],
  },
];
