import type { Plan } from "../plan/index.ts";
import type { Debrief } from "../rehearsal/index.ts";
import { statedCsv } from "./csv.ts";
import { planState } from "./planstate.ts";

/** The debrief of a rehearsal of `plan` as comma-separated values, one row a task. Times are seconds from touchdown; what there is not is empty. */
export function debriefCsv(plan: Plan, debrief: Debrief): string {
  const rows = debrief.rows.map((row) => [
    row.task,
    row.number,
    row.name,
    row.must ? "yes" : "no",
    row.worth,
    row.crew.join(" "),
    row.plannedStartS ?? "",
    row.plannedLengthS,
    row.startS ?? "",
    row.lengthS ?? "",
    row.lateS ?? "",
    row.longerS ?? "",
    row.outcome,
    row.why ?? "",
  ]);
  return statedCsv(planState(plan), COLUMNS, rows);
}

const COLUMNS = [
  "task",
  "number",
  "name",
  "must",
  "worth",
  "crew",
  "planned start MET s",
  "planned length s",
  "start MET s",
  "length s",
  "later s",
  "longer s",
  "outcome",
  "why",
];
