import { check } from "../../../src/check/index.ts";
import { drawPerSecond, suitIn, walkbackW } from "../../../src/physics/index.ts";
import type { Pairs } from "../pair.ts";
import { at, eva, place, task, tinyPlan, type TinyParts } from "../tinyPlan.ts";

/**
 * EV1 alone walks 100 m out (100 s), works 1000 s, walks home. The battery gives 36 W = 0.01 Wh/s. Walking back at 0.5 m/s takes 200 s: at the end of the work 1100 s are drawn and 200 s must be left, 13 Wh in
 * all, while the day itself draws only 1200 s = 12 Wh.
 */
export const plan = (batteryWh: number, tightS = 0) => tinyPlan(partsOf(batteryWh, tightS));

export const partsOf = (batteryWh: number, tightS = 0): TinyParts => ({
  places: [place("lander", 0, 0), place("out", 100, 0)],
  evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
  tasks: [task("work", "out", { duration: { likelyS: 1000 } })],
  placements: [at("work", 100)],
  rules: { walkback: { speedMs: 0.5 }, tightS },
  suit: { electricalW: 36, batteryWh: 2 * batteryWh, reserve: { battery: 0.5 } },
});

/**
 * EV1 at 0.01 Wh/s from the lander to a (300 s), 100 s of work, to c (500 s), 100 s of work, home (400 s): 14 Wh. A pit between a, c and the
 * lander lets nobody go straight home from the way: 600 s by either end at its worst, 300 s from a. At the begin of the way 4 Wh are
 * drawn, at its end 9 Wh, and 15 Wh with the worst walk-back.
 */
const round = (batteryWh: number) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
    tasks: ["one", "two"].map((id, k) => task(id, k === 0 ? "a" : "c", { duration: { likelyS: 100 } })),
    placements: [at("one", 300), at("two", 900)],
    site: {
      keepOuts: [
        {
          id: "pit",
          name: "pit",
          kind: "walking",
          shape: { type: "disc", eastM: 100, northM: 100, radiusM: 30 },
        },
      ],
    },
    rules: { walkback: { speedMs: 1 } },
    suit: { electricalW: 36, batteryWh, reserve: { battery: 0 } },
  });

/**
 * EV1 in a pit 500 m out and 50 m down: 1426.1 s home at 0.5 m/s and exp(-3.5 / 10) on the line's slope of 1/10, and
 * every second of them climbs. `spare` micrograms of CO2 capacity are left for it at the end of the work.
 */
export const pit = (upM: number, spare: number) => {
  const made = (co2Kg: number) =>
    tinyPlan({
      places: [place("lander", 0, 0), { ...place("out", 500, 0), upM }],
      evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
      tasks: [task("work", "out", { duration: { likelyS: 1000 } })],
      placements: [at("work", 2000)],
      suit: { co2Kg, reserve: { co2: 0 } },
      rules: { walkback: { speedMs: 0.5 } },
    });
  const track = check(made(1)).margins.find((one) => one.consumable === "co2")!;
  const atEnd = track.points.find((one) => one.atS === 3000)!;
  return made(1 - atEnd.value + spare / 1e9);
};

export const climbing = () => {
  const { suits, crew, rules, body } = pit(-50, 0);
  const [suit, member] = [suits[0]!, crew[0]!];
  const who = { factor: 1, massKg: member.bodyMassKg + suit.massKg };
  const { walking, walkback } = rules;
  const watts = (angle: number): number =>
    walkbackW(walkback.metabolicW, walking, who, body.gravityMs2, walkback.speedMs, angle);
  const perSecond = (angle: number): number => drawPerSecond(suitIn(suit, "walking", 0), watts(angle)).co2;
  return { up: perSecond(Math.atan(0.1)), level: perSecond(0), down: perSecond(-Math.atan(0.1)) };
};

export const homeS = Math.ceil(Math.hypot(500, 50) / (0.5 * Math.exp(-0.35)));

export const walkBackConsumables: Pairs = [
  // 12.994 Wh above the reserve less 11 Wh is 1.994 Wh, which carries 199.4 s: 199 whole ones.
  {
    breaks: ["199 s carried, 200 s needed", plan(12.994)],
    says: { need: 200, have: 199 },
    holds: ["exactly 200 s carried", plan(13)],
  },
  {
    breaks: ["the worst of a way, against what is left at its end", round(14.99)],
    says: { need: 600, have: 599 },
    holds: ["just enough left at its end for its worst", round(15)],
  },
  {
    breaks: ["a climb home that asks for a microgram more", pit(-50, climbing().up * homeS - 1)],
    says: { need: homeS, have: homeS - 1 },
    holds: ["one that asks for exactly what is left", pit(-50, climbing().up * homeS)],
  },
];
