import { type Plan, tasksById } from "../plan/index.ts";
import { taskNumber, touchdownMs, utcStamp } from "../words/index.ts";
import { statedCsv } from "./csv.ts";
import { planState } from "./planstate.ts";

/**
 * The schedule as comma-separated values, one row a placement by start. Times as
 * seconds from touchdown and as UTC, where somebody has said when the lander touches down. `madeMs` is when it is written,
 * milliseconds since 1970.
 */
export function scheduleCsv(plan: Plan, madeMs?: number): string {
  const zeroMs = touchdownMs(plan);
  const tasks = tasksById(plan);
  const rows = [...plan.schedule.placements]
    .sort((a, b) => a.startS - b.startS || (a.task < b.task ? -1 : 1))
    .flatMap((placement) => {
      const task = tasks.get(placement.task);
      if (!task) return [];
      const endS = placement.startS + task.duration.likelyS;
      return [
        [
          task.id,
          taskNumber(plan, task.id),
          task.name,
          placement.eva ?? "",
          placement.crew.join(" "),
          task.place ?? "",
          task.endPlace ?? task.place ?? "",
          placement.startS,
          endS,
          ...[placement.startS, endS].map((atS) => (zeroMs === null ? "" : utcStamp(zeroMs, atS))),
          task.must ? "yes" : "no",
          task.worth,
        ],
      ];
    });
  return statedCsv(planState(plan, madeMs), COLUMNS, rows);
}

const COLUMNS = [
  "task",
  "number",
  "name",
  "eva",
  "crew",
  "place",
  "end place",
  "start MET s",
  "end MET s",
  "start UTC",
  "end UTC",
  "must",
  "worth",
];
