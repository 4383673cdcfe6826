import type { Place } from "../../plan/index.ts";
import { choice, quantity } from "./entry.ts";
import { BY_NAME, listTable, named } from "./listtable.ts";

/** Named points on the ground. */

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
