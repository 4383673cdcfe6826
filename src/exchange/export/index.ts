import { strToU8, zipSync } from "fflate";
import type { BenchReason, Verdict } from "../../answers/index.ts";
import { isTouchdownKnown, type Plan, planJsonSchema } from "../../plan/index.ts";
import { type NamedLine, planGeoJson } from "../geojson.ts";
import { dayPage } from "../page/index.ts";
import { planText } from "../planfile.ts";
import { scheduleCsv } from "../schedulecsv.ts";
import { scheduleCalendar } from "./calendar.ts";
import { planKml } from "./kml.ts";
import { linksCsv } from "./linkscsv.ts";
import { benchCsv, findingsCsv, marginsCsv, remarksCsv, tasksCsv } from "./tables.ts";

/** A plan as files for other programs, each of its kind. */

/** What the files are made of. */
export interface Exported {
  readonly plan: Plan;
  /** The judge's word on the plan's own schedule. */
  readonly verdict: Verdict;
  readonly reasons: ReadonlyMap<string, BenchReason>;
  /** Ways of the day. */
  readonly lines: readonly NamedLine[];
  /** When they are written, milliseconds since 1970. */
  readonly madeMs: number;
}

export interface ExportKind {
  readonly id: string;
  readonly name: string;
  readonly purpose: string;
  readonly file: string;
  readonly type: string;
  /** Why it cannot be made of this plan, as words that follow "not made:"; left out where it always can. */
  disabledReason?(plan: Plan): string | null;
  make(from: Exported): string;
}

/** Degrees on the body follow from the lander's own. */
const unplaced: ExportKind["disabledReason"] = ({ site }) =>
  site.toGive === undefined ? null : "nobody has given where on the body the site lies";

const csv = (id: string, name: string, purpose: string, make: ExportKind["make"]): ExportKind => ({
  id,
  name,
  purpose,
  file: `${id}.csv`,
  type: "text/csv",
  make,
});

export const EXPORTS: readonly ExportKind[] = [
  {
    id: "plan",
    name: "Plan",
    purpose: "Everything there is, to be opened here again (JSON).",
    file: "plan.json",
    type: "application/json",
    make: ({ plan }) => planText(plan),
  },
  {
    id: "page",
    name: "Page of the day",
    purpose: "The day to be read in any browser, without this program or a network (HTML).",
    file: "day.html",
    type: "text/html",
    make: ({ plan, verdict, reasons, madeMs }) => dayPage(plan, verdict, reasons, madeMs),
  },
  csv("tasks", "Tasks", "Every request, under heads that Import a list knows (CSV).", ({ plan, madeMs }) =>
    tasksCsv(plan, madeMs),
  ),
  csv(
    "links",
    "Links",
    "What comes after what and how long after, under heads that Import a list knows (CSV).",
    ({ plan, madeMs }) => linksCsv(plan, madeMs),
  ),
  csv("schedule", "Schedule", "Every placed task with crew, place and times (CSV).", ({ plan, madeMs }) =>
    scheduleCsv(plan, madeMs),
  ),
  csv("margins", "Margins", "The least of each consumable of each suit (CSV).", ({ plan, verdict, madeMs }) =>
    marginsCsv(plan, verdict, madeMs),
  ),
  csv("findings", "Findings", "What breaks a rule or holds by little (CSV).", ({ plan, verdict, madeMs }) =>
    findingsCsv(plan, verdict, madeMs),
  ),
  csv("bench", "Bench", "What is not on the day line, and why (CSV).", ({ plan, reasons, madeMs }) =>
    benchCsv(plan, reasons, madeMs),
  ),
  csv(
    "said",
    "Comments",
    "What people say of tasks, rules and pages, and who has signed them (CSV).",
    ({ plan, madeMs }) => remarksCsv(plan, madeMs),
  ),
  {
    id: "calendar",
    name: "Calendar",
    purpose: "The schedule in UTC for calendar programs (iCalendar).",
    file: "schedule.ics",
    type: "text/calendar",
    disabledReason: (plan) => (isTouchdownKnown(plan) ? null : "nobody has given the touchdown"),
    make: ({ plan, verdict, madeMs }) => scheduleCalendar(plan, verdict, madeMs),
  },
  {
    id: "geojson",
    name: "Site as GeoJSON",
    purpose: "Places, keep-outs and ways of the day for map programs.",
    file: "site.geojson",
    type: "application/geo+json",
    disabledReason: unplaced,
    make: ({ plan, lines, madeMs }) => planGeoJson(plan, lines, madeMs),
  },
  {
    id: "kml",
    name: "Site as KML",
    purpose: "Places, keep-outs and ways of the day for programs that read KML.",
    file: "site.kml",
    type: "application/xml",
    disabledReason: unplaced,
    make: ({ plan, lines, madeMs }) => planKml(plan, lines, madeMs),
  },
  {
    id: "schema",
    name: "Schema",
    purpose: "What a plan file may hold, for programs that write one (JSON Schema).",
    file: "lopeline-plan.schema.json",
    type: "application/schema+json",
    make: () => `${JSON.stringify(planJsonSchema(), null, 2)}\n`,
  },
];

/** The first day that a zip can name: the same plan makes the same bytes on every day. */
const NO_DAY = new Date(1980, 0, 2);

/** Every kind that can be made of the plan in one zip, under its own file name. */
export function everything(from: Exported): Uint8Array {
  const files = EXPORTS.filter((kind) => (kind.disabledReason?.(from.plan) ?? null) === null).map(
    ({ file, make }) => [file, strToU8(make(from))] as const,
  );
  return zipSync(Object.fromEntries(files), { mtime: NO_DAY });
}
