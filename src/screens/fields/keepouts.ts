import type { KeepOut } from "../../plan/index.ts";
import { choice, quantity } from "./entry.ts";
import { BY_NAME, listTable, named } from "./listtable.ts";
import { one, some, SOURCES } from "./nameentry.ts";
import { corners } from "./specialentry.ts";

/** Where nobody may walk, or work. */

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
