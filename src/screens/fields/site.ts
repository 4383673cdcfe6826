import type { Plan } from "../../plan/index.ts";
import { choice, longText, quantity, text } from "./entry.ts";
import { sheetTable } from "./sheettable.ts";
import { sided } from "./specialentry.ts";
import type { Field, Table } from "./table.ts";

/** Where the ground lies, on which body, and its height grid. */

const fields: readonly Field<Plan>[] = [
  { label: "Site", path: "site.name", entry: text, width: 24, hint: "How the site is called." },
  {
    label: "Latitude",
    path: "site.latDeg",
    entry: sided("N", "S"),
    unit: "°",
    width: 24,
    hint: "North positive: −72.5, 72.5 S or 72°30′ S.",
    unknown: "sun and Earth unknown",
  },
  {
    label: "Longitude",
    path: "site.lonDeg",
    entry: sided("E", "W"),
    unit: "°",
    width: 24,
    hint: "East positive: −23.1, 23.1 W or 23°6′ W.",
    unknown: "sun and Earth unknown",
  },
  { label: "Elevation", path: "site.elevationM", entry: quantity("m"), unit: "m", width: 24 },
  {
    label: "Notes on the site",
    path: "site.notes",
    entry: longText,
    width: 24,
    hint: "For those who work on the plan.",
  },
];

const bodyFields: readonly Field<Plan>[] = [
  { label: "Body", path: "body.name", entry: text, width: 24, hint: "The airless body." },
  {
    label: "Gravity",
    path: "body.gravityMs2",
    entry: quantity("m/s²"),
    unit: "m/s²",
    width: 24,
    hint: "Surface gravity.",
  },
  { label: "Mean radius", path: "body.radiusM", entry: quantity("m"), unit: "m", width: 24 },
  {
    label: "Sun and Earth",
    path: "body.ephemeris",
    entry: choice([
      { value: "moon", words: "computed for the Moon" },
      { value: "none", words: "unknown" },
    ]),
    width: 24,
  },
];

/** A sheet of one column, a line a field. */
function valueSheet(id: string, title: string, intro: string, lines: readonly Field<Plan>[]): Table {
  return sheetTable({
    id,
    title,
    intro,
    columns: [{ label: "Value", unit: "", width: 24, group: "", align: "start" }],
    lines: lines.map((field) => ({
      name: field.unit ? `${field.label}, ${field.unit}` : field.label,
      fields: [{ ...field, entry: { ...field.entry, align: "start" } }],
    })),
  });
}

export const siteSheet = valueSheet(
  "site",
  "Site",
  "Where the lander stands. East and north of every place are counted from it.",
  fields,
);

/** Apart from the site, since most plans leave it as it is. */
export const bodySheet = valueSheet(
  "body",
  "Body",
  "What the site is on: how heavy things are, how far the horizon, where sun and Earth stand.",
  bodyFields,
);

/** The height grid's fields; without one there is nothing to fill in. */
const groundFields: readonly Field<Plan>[] = [
  {
    label: "Lander east of the grid's south-west point",
    path: "ground.westM",
    entry: quantity("m"),
    unit: "m",
    width: 24,
    read: ({ ground }) => (ground ? -ground.westM : undefined),
    write: (plan, value) => withGround(plan, { westM: -(value as number) }),
    hint: "Where the lander stands on the grid; places and keep-outs keep their distance to it.",
  },
  {
    label: "Lander north of the grid's south-west point",
    path: "ground.southM",
    entry: quantity("m"),
    unit: "m",
    width: 24,
    read: ({ ground }) => (ground ? -ground.southM : undefined),
    write: (plan, value) => withGround(plan, { southM: -(value as number) }),
    hint: "Where the lander stands on the grid; places and keep-outs keep their distance to it.",
  },
  {
    label: "Way walked over the line on the grid",
    path: "ground.detour",
    entry: quantity(""),
    width: 24,
  },
  {
    label: "Ways spare",
    path: "ground.aim",
    entry: choice([
      { value: "time", words: "walking time" },
      { value: "energy", words: "energy" },
    ]),
    width: 24,
  },
];

function withGround(plan: Plan, part: Partial<NonNullable<Plan["ground"]>>): Plan {
  return plan.ground ? { ...plan, ground: { ...plan.ground, ...part } as Plan["ground"] } : plan;
}

export const groundSheet = valueSheet(
  "ground",
  "Height grid",
  "Heights come in on the site screen. Without them ways are straight lines between places.",
  groundFields.map((field) => ({
    ...field,
    apart: ({ ground }: Plan) => (ground ? null : "There is no height grid."),
  })),
);
