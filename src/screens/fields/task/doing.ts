import type { Task } from "../../../plan/index.ts";
import { quantity, tag, tick } from "../entry.ts";
import { one, some, SOURCES } from "../nameentry.ts";
import { effort, sunAngle, sunRange } from "../specialentry.ts";
import type { Field } from "../table.ts";
import { span, stretches } from "../timeentry.ts";

/** The ground that a task may ask for. */
const LIGHTS = [
  { id: "lit", name: "In the sun" },
  { id: "shaded", name: "In shadow" },
];

/** Where a task is done, by whom, and when it may be. */
export const WHERE_WHO_WHEN = {
  place: {
    label: "Place",
    path: "place",
    heads: ["location", "station", "where"],
    entry: one(SOURCES.places, "none"),
    width: 17,
    group: "Where",
  },
  endPlace: {
    label: "Ends at",
    path: "endPlace",
    heads: ["end place"],
    entry: one(SOURCES.places, "same place"),
    width: 17,
    group: "Where",
  },
  walk: { label: "Walk in it", path: "walkM", entry: quantity("m"), unit: "m", width: 8, group: "Where" },
  count: {
    label: "Crew",
    path: "crew.count",
    heads: ["crew count", "crew size"],
    entry: quantity(""),
    width: 6,
    group: "Who",
  },
  named: {
    label: "By name",
    path: "crew.named",
    entry: some(SOURCES.crew, "anyone"),
    width: 11,
    group: "Who",
  },
  qualification: {
    label: "Qualification",
    path: "crew.qualification",
    entry: tag,
    width: 12,
    group: "Who",
  },
  effort: {
    label: "Effort",
    path: "effort",
    entry: effort,
    width: 12,
    group: "Who",
    hint: "How hard the work is: a category of measured rates, or watts from 50 to 1500.",
  },
  windows: { label: "Windows", path: "windows", entry: stretches, unit: "MET", width: 18, group: "When" },
  petFrom: {
    label: "Not before",
    path: "pet.startS",
    entry: span,
    unit: "h:mm",
    width: 9,
    group: "From egress (PET)",
    hint: "Counted from the egress of its EVA, so that a late egress moves it; empty for any time.",
    prune: true,
  },
  petTo: {
    label: "Over by",
    path: "pet.endS",
    entry: span,
    unit: "h:mm",
    width: 9,
    group: "From egress (PET)",
    hint: "Counted from the egress of its EVA; empty for any time after.",
    prune: true,
  },
  sun: {
    label: "Sun elevation",
    path: "sun",
    entry: sunRange,
    unit: "deg",
    width: 10,
    group: "When",
    hint: "Sun elevation from start to end; empty for any.",
  },
  light: {
    label: "Ground",
    path: "light",
    entry: one(() => LIGHTS, "any light"),
    width: 10,
    group: "When",
    hint: "Ground in the sun or in shadow from start to end, by the horizon of the height grid.",
  },
  sunAngle: {
    label: "Sun and heading",
    path: "sunAngle",
    entry: sunAngle,
    unit: "deg",
    width: 14,
    group: "When",
    hint: "Angle between where the crew faces and the sun: 0 ahead, 180 behind; empty for any.",
  },
  relay: { label: "Relay", path: "relay", entry: tick, width: 6, group: "When" },
} satisfies Record<string, Field<Task>>;
