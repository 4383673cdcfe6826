import type { Eva } from "../../../plan/index.ts";
import { clock, touchdownMs, utcClock } from "../../../words/index.ts";
import { nameOf, taskName } from "../crewday.ts";
import type { Body, Column, Row, Section } from "./body.ts";
import { GAUGES, type Gauge, gaugeAt, gaugeCell, gaugeColumns } from "./console.ts";
import { evasOut, type SheetGiven, type PlacedTask, placedTasksOf, utcKey } from "./given.ts";

/** What every suit should read when a task ends, to be held against what it reads. */

export interface GaugeRow {
  readonly placed: PlacedTask;
  readonly crew: string;
  readonly gauges: readonly Gauge[];
}

/** A row for each task and crew member of an EVA, by end. */
export function gaugeRows(given: SheetGiven, eva: Eva): GaugeRow[] {
  return placedTasksOf(given.plan)
    .filter((placed) => placed.eva === eva.id)
    .sort((a, b) => a.endS - b.endS)
    .flatMap((placed) =>
      given.plan.crew
        .filter(({ id }) => placed.crew.includes(id))
        .map(({ id: crew }) => ({
          placed,
          crew,
          gauges: GAUGES.map(({ consumable }) =>
            gaugeAt(given, eva.id, crew, consumable, placed.endS, [{ at: "task", task: placed.task.id }]),
          ),
        })),
    );
}

export function gaugeBody(given: SheetGiven): Body {
  const { plan } = given;
  const epochMs = touchdownMs(plan);
  return {
    title: "Gauges by task end",
    wide: false,
    under: [
      "What each suit is planned to hold when a task ends, and the least to come home with from there.",
    ],
    key: [
      "Planned: % of the full stock at likely durations, rounded down; under it HOME IF, the least to come home with the reserve, turning at once, rounded up. ?: not known." +
        utcKey(plan),
    ],
    sections: evasOut(given).map(({ eva }): Section => ({
      kind: "table",
      title: nameOf(plan.evas, eva.id),
      none: "No task on this EVA.",
      columns: [
        { head: "ENDS MET", align: "right", bold: true, known: true },
        { head: "UTC", align: "right" },
        { head: "TASK", grow: 2 },
        { head: "WHO", known: true },
        ...gaugeColumns("").map((column): Column => ({ ...column, group: "plan %, least" })),
        ...["TIME", ...GAUGES.map(({ head }) => head)].map((head): Column => ({
          head,
          group: "read",
          blankMm: 10,
        })),
      ],
      rows: gaugeRows(given, eva).map(({ placed, crew, gauges }): Row => ({
        cells: [
          { text: clock(placed.endS) },
          { text: utcClock(epochMs, placed.endS) },
          { text: taskName(placed.task), number: placed.number },
          { text: nameOf(plan.crew, crew) },
          ...gauges.map(gaugeCell),
        ],
      })),
    })),
  };
}
