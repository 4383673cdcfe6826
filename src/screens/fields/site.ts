import { duration } from "../../kernel/index.ts";
import type { KeepOut, Leg, Place, Plan } from "../../plan/index.ts";
import { choice, longText, quantity, text, tick } from "./entry.ts";
import { one, some, SOURCES } from "./nameentry.ts";
import { corners, sided } from "./specialentry.ts";
import { BY_NAME, listTable, named } from "./listtable.ts";
import { sheetTable } from "./sheettable.ts";
import type { Field, Table } from "./table.ts";
import { span } from "./timeentry.ts";

/** The ground: where it lies, its places, where nobody may be, ways with numbers of their own. */

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

export const placeTable = listTable<Place>({
  id: "places",
  title: "Places",
  intro: "Named points on the ground. Exactly one is the lander.",
  one: "place",
  list: "site.places",
  kind: "place",
  prefix: "place",
  ...BY_NAME,
  fields: [
    { ...named(24), heads: ["station"] },
    {
      label: "Kind",
      path: "kind",
      heads: ["type"],
      entry: choice([
        { value: "lander", words: "Lander" },
        { value: "station", words: "Station" },
        { value: "deployment", words: "Deployment site" },
      ]),
      width: 16,
    },
    {
      label: "East",
      path: "eastM",
      entry: quantity("m"),
      unit: "m",
      width: 9,
      heads: ["x", "easting"],
    },
    {
      label: "North",
      path: "northM",
      entry: quantity("m"),
      unit: "m",
      width: 9,
      heads: ["y", "northing"],
    },
    { label: "Up", path: "upM", entry: quantity("m"), unit: "m", width: 9, heads: ["z", "height"] },
  ],
  blank: (plan, id) => ({
    id,
    name: `New place ${plan.site.places.length + 1}`,
    kind: "station",
    eastM: 100,
    northM: 0,
    upM: 0,
  }),
  copy: (row, id) => ({
    ...row,
    id,
    name: `${row.name} (copy)`,
    kind: row.kind === "lander" ? "station" : row.kind,
  }),
});

const discOnly = (row: KeepOut): string | null => (row.shape.type === "disc" ? null : "Only for a disc.");
const polygonOnly = (row: KeepOut): string | null =>
  row.shape.type === "polygon" ? null : "Only for a polygon.";

/** The same keep-out as a disc round its corners, or as the square round its disc: never smaller than it was. */
function reshaped(row: KeepOut, type: KeepOut["shape"]["type"]): KeepOut {
  const { shape } = row;
  if (shape.type === type) return row;
  if (shape.type === "disc") {
    const { eastM, northM, radiusM } = shape;
    const points = [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ].map(([east = 0, north = 0]) => ({ eastM: eastM + east * radiusM, northM: northM + north * radiusM }));
    return { ...row, shape: { type: "polygon", points } };
  }
  const { points } = shape;
  const mean = (of: (point: { eastM: number; northM: number }) => number): number =>
    Math.round(points.reduce((sum, point) => sum + of(point), 0) / points.length);
  const eastM = mean((point) => point.eastM);
  const northM = mean((point) => point.northM);
  const reach = Math.max(...points.map((point) => Math.hypot(point.eastM - eastM, point.northM - northM)));
  return { ...row, shape: { type: "disc", eastM, northM, radiusM: Math.max(1, Math.ceil(reach)) } };
}

export const keepOutTable = listTable<KeepOut>({
  id: "keepouts",
  title: "Keep-outs",
  intro: "Walking: nobody walks through. Hot: nobody works inside once the heat is there.",
  one: "keep-out",
  list: "site.keepOuts",
  kind: "keep-out",
  prefix: "keep-out",
  ...BY_NAME,
  fields: [
    named(22),
    {
      label: "Kind",
      path: "kind",
      entry: choice([
        { value: "walking", words: "Walking" },
        { value: "hot", words: "Hot" },
      ]),
      width: 9,
    },
    {
      label: "Shape",
      path: "shape.type",
      entry: choice([
        { value: "disc", words: "Disc" },
        { value: "polygon", words: "Polygon" },
      ]),
      width: 9,
      group: "Shape",
      hint: "Changing it keeps at least the ground that was covered.",
      write: (row, value) => reshaped(row, value as KeepOut["shape"]["type"]),
    },
    {
      label: "East",
      path: "shape.eastM",
      entry: quantity("m"),
      unit: "m",
      width: 8,
      group: "Shape",
      apart: discOnly,
    },
    {
      label: "North",
      path: "shape.northM",
      entry: quantity("m"),
      unit: "m",
      width: 8,
      group: "Shape",
      apart: discOnly,
    },
    {
      label: "Radius",
      path: "shape.radiusM",
      entry: quantity("m"),
      unit: "m",
      width: 8,
      group: "Shape",
      apart: discOnly,
    },
    {
      label: "Corners",
      path: "shape.points",
      entry: corners,
      width: 14,
      group: "Shape",
      hint: "Metres east and north of the lander.",
      apart: polygonOnly,
    },
    { label: "Holds after", path: "afterTask", entry: one(SOURCES.tasks, "always"), width: 24 },
    { label: "Exempt tasks", path: "exemptTasks", entry: some(SOURCES.tasks, "none"), width: 28 },
  ],
  blank: (plan, id) => ({
    id,
    name: `New keep-out ${plan.site.keepOuts.length + 1}`,
    kind: "walking",
    // Beside everything, so that nothing is closed off before the planner has said where it lies.
    shape: {
      type: "disc",
      eastM: Math.max(...plan.site.places.map((place) => place.eastM)) + 500,
      northM: 0,
      radiusM: 10,
    },
    exemptTasks: [],
  }),
  copy: (row, id) => ({ ...row, id, name: `${row.name} (copy)` }),
});

const legKey = (leg: Leg): string => `${leg.from}/${leg.to}`;

export const legTable = listTable<Leg>({
  id: "legs",
  title: "Traverse legs",
  intro: "Ways whose numbers you give; all others are computed from places, walking speed and keep-outs.",
  one: "leg",
  list: "site.legs",
  kind: null,
  prefix: "leg",
  keyOf: legKey,
  nameOf: (row, plan) =>
    `${one(SOURCES.places).show(row.from, plan)} to ${one(SOURCES.places).show(row.to, plan)}`,
  fields: [
    { label: "From", path: "from", entry: one(SOURCES.places), width: 20, hint: "Where the leg begins." },
    { label: "To", path: "to", entry: one(SOURCES.places), width: 20, hint: "Where the leg ends." },
    { label: "Distance", path: "distanceM", entry: quantity("m"), unit: "m", width: 10 },
    { label: "Walking time", path: "durationS", entry: span, unit: "h:mm", width: 10 },
    { label: "Both ways", path: "bothWays", entry: tick, width: 9 },
    { label: "Worst walk-back", path: "walkbackPeakM", entry: quantity("m"), unit: "m", width: 12 },
  ],
  blank: (plan) => {
    const given = new Set(plan.site.legs.flatMap((leg) => [legKey(leg), `${leg.to}/${leg.from}`]));
    const { places } = plan.site;
    for (const from of places) {
      const to = places.find((place) => place !== from && !given.has(`${from.id}/${place.id}`));
      if (to) return straight(plan, from, to);
    }
    return "Every pair of places has its leg already, or there is only one place.";
  },
  copy: (row, _id, plan) => {
    if (row.bothWays)
      return "It holds for the way back too; untick that to give the way back its own numbers.";
    return plan.site.legs.some((leg) => leg.from === row.to && leg.to === row.from)
      ? "Its way back is there already."
      : { ...row, from: row.to, to: row.from };
  },
});

/** A leg with the numbers of the straight line, detour and planned speed, rounded up: a point to start from. */
function straight(plan: Plan, from: Place, to: Place): Leg {
  const { detour, speedMs } = plan.rules.walking;
  const levelM = Math.hypot(to.eastM - from.eastM, to.northM - from.northM);
  const distanceM = Math.ceil(Math.hypot(levelM * detour, to.upM - from.upM));
  return {
    from: from.id,
    to: to.id,
    distanceM,
    durationS: duration(Math.ceil(distanceM / speedMs)),
    bothWays: true,
  };
}
