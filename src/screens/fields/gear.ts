import type { Container, Equipment, Plan } from "../../plan/index.ts";
import { perhaps, quantity } from "./entry.ts";
import { mishap } from "./mishapentry.ts";
import { BY_NAME, listTable, named } from "./listtable.ts";
import { sheetTable } from "./sheettable.ts";
import type { Field } from "./table.ts";

/** What is used, filled and drawn on. */

export const equipmentTable = listTable<Equipment>({
  id: "equipment",
  title: "Equipment",
  intro:
    "Tools and units that tasks share. A task holds what it uses from its start to its end. One that is missing has 0: what needs it stays on the bench.",
  one: "piece of equipment",
  list: "equipment",
  kind: "equipment",
  prefix: "equipment",
  ...BY_NAME,
  fields: [
    named(28),
    { label: "How many", path: "count", entry: quantity(""), width: 10 },
    { label: "Mass of one", path: "massKg", entry: quantity("kg"), unit: "kg", width: 10 },
    { label: "Comes back", path: "returns", entry: perhaps, width: 11 },
    {
      label: "Rare event at each use",
      path: "mishap",
      entry: mishap,
      width: 26,
      prune: true,
      hint: "What may go wrong on a simulated day each time a task uses it, with its chance.",
    },
  ],
  lacks: [
    { words: "mass not given", is: ({ massKg }) => massKg === undefined },
    { words: "not given whether it comes back", is: ({ returns }) => returns === undefined },
  ],
  blank: (plan, id) => ({ id, name: `New equipment ${plan.equipment.length + 1}`, count: 1 }),
  copy: (row, id) => ({ ...row, id, name: `${row.name} (copy)` }),
});

export const containerTable = listTable<Container>({
  id: "containers",
  title: "Containers",
  intro: "Boxes for samples. Their empty mass counts towards the return mass once they hold one.",
  one: "container",
  list: "containers",
  kind: "container",
  prefix: "container",
  ...BY_NAME,
  fields: [
    named(28),
    { label: "Empty mass", path: "emptyMassKg", entry: quantity("kg"), unit: "kg", width: 10 },
    { label: "Capacity", path: "capacityKg", entry: quantity("kg"), unit: "kg", width: 10 },
    { label: "Volume", path: "volumeL", entry: quantity("L"), unit: "L", width: 10 },
  ],
  blank: (plan, id) => ({
    id,
    name: `New container ${plan.containers.length + 1}`,
    emptyMassKg: 5,
    capacityKg: 15,
    volumeL: 25,
  }),
  copy: (row, id) => ({ ...row, id, name: `${row.name} (copy)` }),
});

const stores: readonly Field<Plan>[] = [
  { label: "Oxygen", path: "stores.oxygenKg", entry: quantity("kg"), unit: "kg", width: 12 },
  { label: "Feed water", path: "stores.waterKg", entry: quantity("kg"), unit: "kg", width: 12 },
  { label: "Energy", path: "stores.batteryWh", entry: quantity("Wh"), unit: "Wh", width: 12 },
  { label: "Absorbent changes", path: "stores.absorbentChanges", entry: quantity(""), width: 12 },
];

export const storesSheet = sheetTable({
  id: "stores",
  title: "Lander stores",
  intro: "What the lander holds to recharge suits between EVAs.",
  columns: [{ label: "Amount", unit: "", width: 12, group: "", align: "end" }],
  lines: stores.map((field) => ({
    name: field.unit ? `${field.label}, ${field.unit}` : field.label,
    fields: [field],
  })),
});
