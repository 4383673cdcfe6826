import type { Plan } from "../../../src/plan/index.ts";
import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "../tinyPlan.ts";

/** EV1 (80 kg) alone at the lander, no airlock work, no absorbent heat, no electrical load: heat is work. */
export function plan(parts: TinyParts & { readonly second?: number } = {}): Plan {
  const { second = 0, suit, ...more } = parts;
  const heavy = { effort: { watts: 500 }, duration: { likelyS: 1000 } };
  return tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
    tasks: [task("work", "lander", heavy), task("more", "lander", heavy)],
    placements: [at("work", 0), ...(second > 0 ? [at("more", second)] : [])],
    suit: { leakKgH: 0, electricalW: 0, absorbentKjKg: 0, ...suit },
    ...more,
  });
}

// 1000 s at 0.36 kg/h is 0.1 kg.
export const drinks = (drinkKg: number, tightS = 0): Plan =>
  plan({ suit: { drinkKg }, rules: { drinking: { kgH: 0.36 }, tightS } });

/** 162 N at 1.62 m/s2 is 100 kg for each crew member. */
export const carries = (massOutKg: number, count = 1): Plan =>
  tinyPlan({
    tasks: [task("carry", "lander", { massOutKg, crew: { count } })],
    placements: [at("carry", 2000, count === 1 ? ["ev1"] : ["ev1", "ev2"])],
    rules: { carry: { greatestN: 162 } },
  });

export const heatStorage: Pairs = [
  // 1000 s of 500 W against 260 W of cooling store 240 kJ: 3 kJ for each of 80 kg.
  {
    breaks: ["240 W uncooled for 1000 s, one watt more", plan({ suit: { coolingW: 259 } })],
    says: { need: 240, have: 241 },
    holds: ["240 W uncooled for 1000 s", plan({ suit: { coolingW: 260 } })],
  },
];

export const drinkingWater: Pairs = [
  {
    breaks: ["999 s of drinking for 1000 s outside", drinks(0.0999)],
    says: { need: 0.1, have: 0.0999 },
    holds: ["1000 s of drinking for 1000 s outside", drinks(0.1)],
  },
];

export const carry: Pairs = [
  {
    breaks: ["101 kg for one", carries(101)],
    says: { need: 100, have: 101 },
    holds: ["190 kg for two", carries(190, 2)],
  },
];
