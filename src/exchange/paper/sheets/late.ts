import type { ShedCell, ShedRow } from "../../../answers/index.ts";
import { clock, minutes, taskNumber } from "../../../words/index.ts";
import { nameOf, taskName } from "../crewday.ts";
import type { Body, Row, Section } from "./body.ts";
import { type SheetGiven } from "./given.ts";

/** The late table whole: what is left out when a task is left so many minutes late, and what fits when it is left early. */

export interface LateRow {
  readonly task: string;
  readonly crew: readonly string[];
  readonly endS: number;
  /** One for each lateness, in words. */
  readonly late: readonly string[];
  readonly early: string;
}

/** The rows of an EVA, as the table was worked out. */
export function lateRows({ plan }: SheetGiven, rows: readonly ShedRow[]): LateRow[] {
  const number = (task: string): string => taskNumber(plan, task);
  return rows.map((row) => ({
    task: row.task,
    crew: row.crew,
    endS: row.endS,
    late: row.late.map((cell) => cellWords(cell, number)),
    early: earlyWords(row, number),
  }));
}

function cellWords({ kind, drop, vain, breaks }: ShedCell, number: (task: string) => string): string {
  const rest = breaks.length > 0 && kind !== "over" ? "; REST" : "";
  const lost = vain.length > 0 ? `; in vain ${vain.map(number).join(", ")}` : "";
  if (kind === "over") return `END AT ONCE, a limit breaks${lost}`;
  if (kind === "end") return `END${lost}${rest}`;
  if (kind === "keep") return `go${rest}`;
  return `out ${drop.map(number).join(", ")}${lost}${rest}`;
}

/** For the fewest minutes with which something fits, all that fits then. */
function earlyWords({ early }: ShedRow, number: (task: string) => string): string {
  const first = early.find(({ fits }) => fits.length > 0);
  if (!first) return "";
  return `${minutes(first.minutes * 60, "given")}: ${first.fits.map((one) => number(one.task)).join(" or ")}`;
}

export function lateBody(given: SheetGiven): Body {
  const { plan, shed } = given;
  return {
    title: "If late",
    wide: true,
    under: ["Leaving a task so many minutes late: leave out the tasks named, do the rest in order."],
    key: [
      "go: leave out nothing. out: leave out these tasks. END: walk home. END AT ONCE: tell those in charge, a limit breaks. in vain: done already, but lost. REST: rest at the next stop. From the maker's table, at likely durations.",
    ],
    sections: sectionsOf(given),
  };

  function sectionsOf(all: SheetGiven): Section[] {
    if (!shed?.complete)
      return [
        { kind: "words", bold: true, text: "NOT WORKED OUT: late, ask those in charge what to leave out." },
      ];
    if (!shed.sound) return [{ kind: "words", bold: true, text: "NO TABLE: this plan breaks rules." }];
    const names = new Map(plan.tasks.map((task) => [task.id, taskName(task)]));
    const number = (task: string): string => taskNumber(plan, task);
    return shed.evas.map(({ eva, rows }): Section => ({
      kind: "table",
      title: nameOf(plan.evas, eva),
      none: "No task on this EVA.",
      columns: [
        { head: "LEAVING", grow: 2 },
        { head: "WHO" },
        { head: "PLANNED END", align: "right" },
        ...shed.minutes.map((late) => ({ head: `${minutes(late * 60, "given")} late`, grow: 0.9 })),
        { head: "IF EARLY, ONE OF", grow: 1 },
      ],
      rows: lateRows(all, rows).map((row): Row => ({
        cells: [
          { text: names.get(row.task) ?? row.task, number: number(row.task) },
          { text: row.crew.map((id) => nameOf(plan.crew, id)).join(" ") },
          { text: clock(row.endS) },
          ...row.late.map((text) => ({ text, bold: text.startsWith("END") })),
          { text: row.early },
        ],
      })),
    }));
  }
}
