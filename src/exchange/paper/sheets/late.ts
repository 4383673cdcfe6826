import type { Outcome, ShedCell, ShedRow } from "../../../answers/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { clock, minutes, percent, taskNumber } from "../../../words/index.ts";
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
    late: row.late.map((cell) => cellWords(plan, cell, number)),
    early: earlyWords(row, number),
  }));
}

function cellWords(plan: Plan, cell: ShedCell, number: (task: string) => string): string {
  const { kind, drop, vain, breaks, then, result } = cell;
  const rest = breaks.length > 0 && kind !== "over" ? "; REST" : "";
  const lost = vain.length > 0 ? `; in vain ${vain.map(number).join(", ")}` : "";
  const chance = result === null ? "" : `; must-do ${mustWords(result)}`;
  if (kind === "over") return `END AT ONCE, a limit breaks${lost}`;
  if (kind === "end") return `END${lost}${rest}${chance}`;
  if (kind === "keep") return `go${lost}${rest}${chance}`;
  const out = drop.length > 0 ? [`out ${drop.map(number).join(", ")}`] : [];
  const orders = then.map(
    ({ crew, tasks }) =>
      `${nameOf(plan.crew, crew)} ${tasks.length === 0 ? "home" : `then ${tasks.map(number).join(", ")}`}`,
  );
  return `${[...out, ...orders].join("; ")}${lost}${rest}${chance}`;
}

/** Of the simulated days on which this is done that many with every must-do task done, never more than counted. */
function mustWords({ must }: Outcome): string {
  return must.count === 0 ? "on none" : percent(must.count === must.of ? must.low : must.share, "down");
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
    under: [
      "Leaving a task so many minutes late: leave out the tasks named, go on in the order named, do the rest in order.",
    ],
    key: [
      "go: leave out nothing. out: leave out these tasks. then: all that this one still does, in this order. END: walk home. END AT ONCE: tell those in charge, a limit breaks. in vain: lost though done. REST: rest at the next stop. " +
        `Breaks no rule at likely durations; another order is the best found, not the best there is. must-do: of ${shed?.days ?? 0} simulated days on which a crew does this, the day as planned until then, those with every must-do task done.`,
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
