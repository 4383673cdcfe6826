import { z } from "zod";
import { USUAL } from "./defaults.ts";
import { id, label, metS, ranged, share, spanS } from "./fields.ts";
import { mishapSchema } from "./mishap.ts";
import { toGiveField } from "./togive.ts";

/** A pressure suit with its life-support pack: stocks, rates and what must be left at ingress. */
export const suitSchema = z.strictObject({
  id,
  name: label,
  massKg: ranged(1, 500, "Suit and pack, kg."),
  oxygenKg: ranged(0, 50, "Usable primary oxygen, kg."),
  co2Kg: ranged(0, 50, "CO2 the absorbent can take, kg."),
  waterKg: ranged(0, 100, "Cooling feed water, kg."),
  batteryWh: ranged(0, 100_000, "Usable battery, Wh."),
  leakKgH: ranged(0, 1, "Oxygen lost by leakage, kg/h.").default(USUAL["suits.*.leakKgH"].starts),
  electricalW: ranged(0, 5000, "Electrical load, W.").default(USUAL["suits.*.electricalW"].starts),
  walkingW: ranged(0, 5000, "Electrical load while walking, W; without it electricalW.").optional(),
  workingW: ranged(0, 5000, "Electrical load while at work, W; without it electricalW.").optional(),
  heatFrom: z
    .enum(["given", "sun"])
    .default("sun")
    .describe(
      "Heat from the surroundings. given: environmentW. sun: by the sun's elevation on sunlit ground.",
    ),
  environmentW: ranged(-500, 1000, "Heat from the surroundings where it is given, W.").default(0),
  insulationM2: ranged(
    0,
    5,
    "Area times effective emittance of the insulation, m2; read with heatFrom sun.",
  ).default(USUAL["suits.*.insulationM2"].starts),
  coolingW: ranged(
    0,
    10_000,
    "Greatest heat that the cooling carries off, W; without it always enough.",
  ).optional(),
  respiratoryQuotient: ranged(0.7, 1, "CO2 made per O2 used, by volume.").default(
    USUAL["suits.*.respiratoryQuotient"].starts,
  ),
  coolingKjKg: ranged(1000, 3000, "Heat carried off per kg of feed water, kJ/kg.").default(
    USUAL["suits.*.coolingKjKg"].starts,
  ),
  absorbentKjKg: ranged(
    0,
    10_000,
    "Heat freed by the absorbent per kg of CO2, kJ/kg: more where the water that it makes condenses in the pack.",
  ).default(USUAL["suits.*.absorbentKjKg"].starts),
  purgeKg: ranged(0, 5, "Oxygen that the purge before egress takes from the pack, kg.").default(
    USUAL["suits.*.purgeKg"].starts,
  ),
  drinkKg: ranged(0, 20, "Drinking water in the suit, kg; without it not known and not judged.").optional(),
  emergencyOxygenS: spanS.describe("Emergency oxygen alone, s."),
  reserve: z
    .strictObject({
      oxygen: share("Oxygen kept back.").default(0.15),
      co2: share("CO2 capacity kept back.").default(0.15),
      water: share("Cooling water kept back.").default(0.1),
      battery: share("Battery kept back.").default(0.1),
    })
    .prefault({})
    .describe("What must be left at ingress, as shares of the full stock."),
  toGive: toGiveField("suits"),
});

/** A crew member. */
export const crewSchema = z.strictObject({
  id,
  name: label.describe("How the crew member is called on screen and paper, for instance EV1."),
  bodyMassKg: ranged(30, 200, "Body mass, kg."),
  workRateFactor: ranged(0.3, 3, "Multiplies every metabolic rate.").default(1),
  workRateSpread: ranged(
    0,
    0.9,
    "How far the work rate of any one task may lie above or below the planned one; read by the odds. Share, 0 to 0.9. " +
      "Default 0.25: a single task may differ by 25 % from the mean rates of NASA SP-368, as quoted.",
  ).default(0.25),
  qualifications: z
    .array(id)
    .default([])
    .describe("What the crew member is trained for; tasks may ask for it."),
  suit: id.describe("The suit of their own, worn on every EVA that does not say otherwise."),
  toGive: toGiveField("crew"),
});

/** An outing: who goes, when at the earliest, how long at the most. Its start and end follow from its tasks. */
export const evaSchema = z.strictObject({
  id,
  name: label,
  crew: z.array(id).min(1).max(4).describe("Who goes out."),
  suits: z
    .record(id, id)
    .default({})
    .describe("Who wears another suit than their own on this EVA: the suit by crew member."),
  earliestEgressS: metS.describe("Egress no earlier, seconds from touchdown."),
  latestIngressS: metS.describe("Ingress complete no later, seconds from touchdown."),
  longestS: spanS.describe("From egress to ingress complete at the most, s."),
  egressWorkS: spanS.describe("Fixed work after egress before anybody leaves the lander, s."),
  ingressWorkS: spanS.describe("Fixed work after the last one is back, s."),
});

/** What the lander holds to recharge suits between EVAs. */
export const storesSchema = z.strictObject({
  oxygenKg: ranged(0, 10_000, "Oxygen for recharging, kg.").default(100),
  waterKg: ranged(0, 10_000, "Feed water for recharging, kg.").default(100),
  batteryWh: ranged(0, 1e7, "Energy for recharging, Wh.").default(100_000),
  absorbentChanges: z.int().min(0).max(1000).default(100).describe("Fresh absorbent units."),
});

/** Tools and units that are shared. */
export const equipmentSchema = z.strictObject({
  id,
  name: label,
  count: z.int().min(0).max(10_000).describe("How many there are; 0 where it is missing."),
  massKg: ranged(
    0,
    500,
    "Mass of one, kg; without it not known. What a task carries is said there.",
  ).optional(),
  returns: z
    .boolean()
    .optional()
    .describe("Comes back to the lander at the end of an EVA; without it not known."),
  mishap: mishapSchema
    .optional()
    .describe("What may go wrong on a simulated day each time a task uses it; without it nothing."),
});

/** A box for samples. */
export const containerSchema = z.strictObject({
  id,
  name: label,
  emptyMassKg: ranged(0, 200, "Mass when empty, kg."),
  capacityKg: ranged(0, 1000, "Samples at the most, kg."),
  volumeL: ranged(0, 10_000, "Inner volume, litres."),
  toGive: toGiveField("containers"),
});

export type Suit = z.infer<typeof suitSchema>;
/** What a suit carries and uses up. */
export type Consumable = keyof Suit["reserve"];

/** Where a suit says how much of each consumable it holds. */
export const STOCK_FIELDS = {
  oxygen: "oxygenKg",
  co2: "co2Kg",
  water: "waterKg",
  battery: "batteryWh",
} as const satisfies Record<Consumable, keyof Suit>;
export type CrewMember = z.infer<typeof crewSchema>;
export type Eva = z.infer<typeof evaSchema>;
export type Equipment = z.infer<typeof equipmentSchema>;
export type Container = z.infer<typeof containerSchema>;
