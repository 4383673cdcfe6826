import { type CrewMember, type Eva, type Suit, suitsOf, USUAL } from "../../plan/index.ts";
import { duration, instant } from "../../kernel/index.ts";
import { choice, listOf, percent, quantity, tags } from "./entry.ts";
import { one, onlyOf, outfit, some, SOURCES } from "./nameentry.ts";
import { BY_NAME, listTable, named } from "./listtable.ts";
import { moment, span } from "./timeentry.ts";

/** Who goes out, in what, and on which outings. */

export const crewTable = listTable<CrewMember>({
  id: "crew",
  title: "Crew",
  intro: "Two to four crew members. The work rate factor multiplies every metabolic rate.",
  one: "crew member",
  list: "crew",
  kind: "crew",
  prefix: "ev",
  ...BY_NAME,
  fields: [
    named(12),
    { label: "Body mass", path: "bodyMassKg", entry: quantity("kg"), unit: "kg", width: 8 },
    { label: "Work rate factor", path: "workRateFactor", entry: quantity(""), width: 9 },
    { label: "Work rate spread", path: "workRateSpread", entry: percent, unit: "%", width: 9 },
    {
      label: "Suit",
      path: "suit",
      entry: one(SOURCES.suits),
      width: 14,
      hint: "The suit of their own, worn on every EVA that does not say otherwise.",
    },
    {
      label: "Qualifications",
      path: "qualifications",
      entry: tags,
      width: 28,
      hint: "What this crew member is trained for; a task may ask for one. Lower-case letters, digits and hyphens.",
    },
  ],
  blank: (plan, id) => {
    const unworn = plan.suits.find(
      (one) => !plan.crew.some(({ id, suit }) => suit === one.id || suitsOf(plan, id).includes(one)),
    );
    const suit = unworn ?? plan.suits.at(-1);
    if (!suit) return "Add a suit first: every crew member wears one.";
    const name = `EV${plan.crew.length + 1}`;
    return {
      id,
      name,
      bodyMassKg: 75,
      workRateFactor: 1,
      workRateSpread: 0.25,
      qualifications: [],
      suit: suit.id,
    };
  },
  copy: (row, id, plan) => ({ ...row, id, name: `EV${plan.crew.length + 1}` }),
});

export const suitTable = listTable<Suit>({
  id: "suits",
  title: "Suits",
  intro: "Stocks at egress, rates, and the share of each stock that must still be there at ingress.",
  one: "suit",
  list: "suits",
  kind: "suit",
  prefix: "suit",
  ...BY_NAME,
  fields: [
    named(14),
    {
      label: "Mass",
      path: "massKg",
      entry: quantity("kg"),
      unit: "kg",
      width: 7,
      group: "Suit",
    },
    {
      label: "Emergency oxygen",
      path: "emergencyOxygenS",
      entry: span,
      unit: "h:mm",
      width: 10,
      group: "Suit",
    },
    {
      label: "Oxygen",
      path: "oxygenKg",
      entry: quantity("kg"),
      unit: "kg",
      width: 7,
      group: "Stock",
    },
    { label: "Purge", path: "purgeKg", entry: quantity("kg"), unit: "kg", width: 7, group: "Stock" },
    {
      label: "CO2 capacity",
      path: "co2Kg",
      entry: quantity("kg"),
      unit: "kg",
      width: 8,
      group: "Stock",
    },
    {
      label: "Water",
      path: "waterKg",
      entry: quantity("kg"),
      unit: "kg",
      width: 7,
      group: "Stock",
    },
    {
      label: "Battery",
      path: "batteryWh",
      entry: quantity("Wh"),
      unit: "Wh",
      width: 8,
      group: "Stock",
    },
    { label: "Drink", path: "drinkKg", entry: quantity("kg"), unit: "kg", width: 7, group: "Stock" },
    { label: "Oxygen", path: "reserve.oxygen", entry: percent, unit: "%", width: 8, group: "Reserve" },
    { label: "CO2 capacity", path: "reserve.co2", entry: percent, unit: "%", width: 8, group: "Reserve" },
    { label: "Water", path: "reserve.water", entry: percent, unit: "%", width: 8, group: "Reserve" },
    { label: "Battery", path: "reserve.battery", entry: percent, unit: "%", width: 8, group: "Reserve" },
    { label: "Leak", path: "leakKgH", entry: quantity("kg/h"), unit: "kg/h", width: 8, group: "Rates" },
    { label: "Standing", path: "electricalW", entry: quantity("W"), unit: "W", width: 8, group: "Load" },
    {
      label: "Walking",
      path: "walkingW",
      entry: quantity("W"),
      unit: "W",
      width: 8,
      group: "Load",
      hint: "Electrical load while walking; without it that of standing.",
    },
    {
      label: "At work",
      path: "workingW",
      entry: quantity("W"),
      unit: "W",
      width: 8,
      group: "Load",
      hint: "Electrical load while at work; without it that of standing.",
    },
    {
      label: "From",
      path: "heatFrom",
      entry: choice([
        { value: "given", words: "given" },
        { value: "sun", words: "sun elevation" },
      ]),
      width: 11,
      group: "Surroundings",
      hint: "Heat from the surroundings: the number given, or by the sun's elevation on sunlit ground.",
    },
    {
      label: "Given",
      path: "environmentW",
      entry: quantity("W"),
      unit: "W",
      width: 7,
      group: "Surroundings",
      apart: ({ heatFrom }) => (heatFrom === "sun" ? "The sun's elevation gives it." : null),
    },
    {
      label: "Insulation",
      path: "insulationM2",
      hint: "Area times effective emittance of the insulation; read where the heat comes from the sun.",
      entry: quantity("m²"),
      unit: "m²",
      width: 9,
      group: "Surroundings",
      apart: ({ heatFrom }) => (heatFrom === "given" ? "The heat is given." : null),
    },
    {
      label: "Respiratory quotient",
      path: "respiratoryQuotient",
      entry: quantity(""),
      width: 10,
      group: "Rates",
    },
    { label: "At most", path: "coolingW", entry: quantity("W"), unit: "W", width: 8, group: "Cooling" },
    {
      label: "Per kg",
      path: "coolingKjKg",
      entry: quantity("kJ/kg"),
      unit: "kJ/kg",
      width: 8,
      group: "Cooling",
    },
    {
      label: "Absorbent heat",
      path: "absorbentKjKg",
      entry: quantity("kJ/kg"),
      unit: "kJ/kg",
      width: 9,
      group: "Rates",
    },
  ],
  blank: (plan, id) => ({
    id,
    name: `Suit ${plan.suits.length + 1}`,
    massKg: 90,
    oxygenKg: 0.9,
    co2Kg: 1,
    waterKg: 4.5,
    batteryWh: 500,
    leakKgH: USUAL["suits.*.leakKgH"].starts,
    electricalW: USUAL["suits.*.electricalW"].starts,
    heatFrom: "sun",
    environmentW: 0,
    insulationM2: USUAL["suits.*.insulationM2"].starts,
    purgeKg: USUAL["suits.*.purgeKg"].starts,
    respiratoryQuotient: USUAL["suits.*.respiratoryQuotient"].starts,
    coolingKjKg: USUAL["suits.*.coolingKjKg"].starts,
    absorbentKjKg: USUAL["suits.*.absorbentKjKg"].starts,
    emergencyOxygenS: duration(1800),
    reserve: { oxygen: 0.15, co2: 0.15, water: 0.1, battery: 0.1 },
  }),
  copy: (row, id) => ({ ...row, id, name: `${row.name} (copy)` }),
});

export const evaTable = listTable<Eva>({
  id: "evas",
  title: "EVAs",
  intro:
    "An EVA runs from egress to ingress complete; when exactly follows from its tasks, within these bounds.",
  one: "EVA",
  list: "evas",
  kind: "eva",
  prefix: "eva",
  ...BY_NAME,
  fields: [
    named(12),
    {
      label: "Crew",
      path: "crew",
      entry: some(SOURCES.crew, "nobody"),
      width: 16,
      write: (row, value) => {
        const crew = listOf(value);
        return { ...row, crew: [...crew], suits: onlyOf(row.suits, crew) };
      },
    },
    {
      label: "Other suits",
      path: "suits",
      entry: outfit,
      width: 20,
      hint: "Who wears another suit than their own on this EVA.",
    },
    { label: "Earliest egress", path: "earliestEgressS", entry: moment, unit: "MET", width: 10 },
    { label: "Latest ingress", path: "latestIngressS", entry: moment, unit: "MET", width: 10 },
    { label: "Longest", path: "longestS", entry: span, unit: "h:mm", width: 9 },
    { label: "Egress work", path: "egressWorkS", entry: span, unit: "h:mm", width: 9 },
    { label: "Ingress work", path: "ingressWorkS", entry: span, unit: "h:mm", width: 9 },
  ],
  blank: (plan, id) => {
    if (plan.crew.length === 0) return "Add a crew member first: somebody has to go out.";
    const free = Math.max(0, ...plan.evas.map((eva) => eva.latestIngressS + plan.rules.recharge.leastS));
    return {
      id,
      name: `EVA ${plan.evas.length + 1}`,
      crew: plan.crew.map((member) => member.id),
      suits: {},
      earliestEgressS: instant(free),
      latestIngressS: instant(free + 8 * 3600),
      longestS: duration(7 * 3600),
      egressWorkS: duration(1200),
      ingressWorkS: duration(1200),
    };
  },
  copy: (row, id) => ({ ...row, id, name: `${row.name} (copy)` }),
});
