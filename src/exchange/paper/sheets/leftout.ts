import type { Task } from "../../../plan/index.ts";
import { minutes, numberedSentence, taskNumber, unlessToGive } from "../../../words/index.ts";
import { placeName, taskName } from "../crewday.ts";
import type { Body, Row } from "./body.ts";
import { type SheetGiven } from "./given.ts";

/** What is not on the day, and why, in the words in which the bench says it. */

export interface LeftOutRow {
  readonly task: Task;
  /** Null where nobody has worked it out. */
  readonly reason: string | null;
}

/** What is on the bench: must-do work first, then the worthiest. */
export function leftOutRows({ plan, reasons }: Pick<SheetGiven, "plan" | "reasons">): LeftOutRow[] {
  const placed = new Set(plan.schedule.placements.map(({ task }) => task));
  return plan.tasks
    .filter(({ id }) => !placed.has(id))
    .sort((a, b) => Number(b.must) - Number(a.must) || b.worth - a.worth)
    .map((task) => {
      const sentence = reasons?.find((one) => one.task === task.id)?.sentence;
      return { task, reason: sentence === undefined ? null : numberedSentence(plan, sentence) };
    });
}

export function leftOutBody(given: SheetGiven): Body {
  const { plan } = given;
  const rows = leftOutRows(given);
  const number = (task: string): string => taskNumber(plan, task);
  const must = rows.filter(({ task }) => task.must).length;
  return {
    title: "What was left out, and why",
    wide: false,
    under: [
      `${rows.length} of ${plan.tasks.length} tasks are not on this day${must > 0 ? `, MUST-DO AMONG THEM: ${must}` : ""}.`,
    ],
    key: ["Reasons at likely durations, each task taken alone against the day as it stands."],
    sections: [
      {
        kind: "table",
        none: "Nothing was left out.",
        columns: [
          { head: "TASK", grow: 1.5 },
          { head: "MUST-DO" },
          { head: "WORTH", align: "right" },
          { head: "TAKES", align: "right" },
          { head: "PLACE", grow: 0.8 },
          { head: "WHY", grow: 3 },
        ],
        rows: rows.map(({ task, reason }): Row => ({
          strong: task.must,
          cells: [
            { text: taskName(task), number: number(task.id) },
            { text: task.must ? "MUST-DO" : "" },
            { text: `${task.worth}` },
            { text: unlessToGive(task, "duration.likelyS", minutes(task.duration.likelyS, "given")) },
            { text: task.place === undefined ? "" : placeName(plan, task.place) },
            { text: reason ?? "not worked out" },
          ],
        })),
      },
    ],
  };
}
