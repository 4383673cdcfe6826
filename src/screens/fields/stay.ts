import { instant } from "../../kernel/index.ts";
import type { Plan, Stay } from "../../plan/index.ts";
import { choice, longText, text, tick } from "./entry.ts";
import { some, SOURCES } from "./nameentry.ts";
import { utc } from "./dateentry.ts";
import { BY_NAME, listTable, named } from "./listtable.ts";
import { sheetTable } from "./sheettable.ts";
import type { Field } from "./table.ts";
import { moment, span } from "./timeentry.ts";

/** The plan's name, and the time on the surface. */

const fields: readonly Field<Plan>[] = [
  {
    label: "Title",
    path: "title",
    entry: text,
    width: 40,
    hint: "How the plan is called on screen and paper.",
  },
  {
    label: "Touchdown",
    unit: "UTC",
    path: "stay.touchdownUtc",
    entry: utc,
    width: 40,
    unknown: "sun, Earth and UTC unknown",
  },
  {
    label: "Length of stay",
    unit: "h:mm",
    path: "stay.lengthS",
    entry: { ...span, align: "start" },
    width: 40,
  },
  { label: "Earth is a relay too", path: "stay.earthLink", entry: tick, width: 40 },
  { label: "Notes", path: "notes", entry: longText, width: 40, hint: "For those who work on the plan." },
  {
    label: "Revision",
    path: "revision.name",
    entry: text,
    width: 40,
    hint: 'What this state of the plan is called: "Rev 3".',
  },
  {
    label: "What changed in it",
    path: "revision.note",
    entry: longText,
    width: 40,
    hint: "Its author's note: what changed, and for whom.",
  },
];

export const staySheet = sheetTable({
  id: "stay",
  title: "Plan and stay",
  intro: "All times in the plan are mission elapsed time (MET), counted from touchdown.",
  columns: [{ label: "Value", unit: "", width: 40, group: "", align: "start" }],
  lines: fields.map((field) => ({
    name: field.unit ? `${field.label}, ${field.unit}` : field.label,
    fields: [field],
  })),
});

type Block = Stay["blocks"][number];

export const blockTable = listTable<Block>({
  id: "blocks",
  title: "Sleep and meals",
  intro: "Nobody named is outside while a block lasts; a block that names nobody is everybody's.",
  one: "block",
  list: "stay.blocks",
  kind: "block",
  prefix: "block",
  ...BY_NAME,
  fields: [
    named(22),
    {
      label: "Kind",
      path: "kind",
      entry: choice([
        { value: "sleep", words: "Sleep" },
        { value: "meal", words: "Meal" },
        { value: "other", words: "Other" },
      ]),
      width: 9,
      hint: "What it is for.",
    },
    { label: "Begin", path: "startS", entry: moment, unit: "MET", width: 9 },
    { label: "End", path: "endS", entry: moment, unit: "MET", width: 9 },
    { label: "Crew", path: "crew", entry: some(SOURCES.crew, "everybody"), width: 16 },
  ],
  blank: (plan, id) => {
    const startS = Math.max(0, ...plan.stay.blocks.map((block) => block.endS));
    return {
      id,
      name: `Block ${plan.stay.blocks.length + 1}`,
      kind: "meal",
      crew: [],
      startS: instant(startS),
      endS: instant(startS + 1800),
    };
  },
  copy: (row, id) => ({ ...row, id, name: `${row.name} (copy)` }),
});

type Pass = Stay["relayPasses"][number];

export const passTable = listTable<Pass>({
  id: "passes",
  title: "Relay passes",
  intro: "When the relay can be reached; a relay task lies inside one pass.",
  one: "relay pass",
  list: "stay.relayPasses",
  kind: "pass",
  prefix: "pass",
  ...BY_NAME,
  fields: [
    named(22),
    {
      label: "Rise",
      path: "startS",
      entry: moment,
      unit: "MET",
      width: 9,
      hint: "From here on it can be reached.",
    },
    { label: "Set", path: "endS", entry: moment, unit: "MET", width: 9, hint: "From here on it cannot." },
  ],
  blank: (plan, id) => {
    const startS = Math.max(0, ...plan.stay.relayPasses.map((pass) => pass.endS));
    const name = `Pass ${plan.stay.relayPasses.length + 1}`;
    return { id, name, startS: instant(startS), endS: instant(startS + 3600) };
  },
  copy: (row, id) => ({ ...row, id, name: `${row.name} (copy)` }),
});
