import { type Eva, leavesInstrument, type Task } from "../../../plan/index.ts";
import { clock, mass } from "../../../words/index.ts";
import { nameOf, placeName, taskName } from "../crewday.ts";
import type { Body, Row, Section } from "./body.ts";
import { evasOut, type SheetGiven, type PlacedTask, placedTasksOf } from "./given.ts";

/** What goes out on each EVA, who carries it for which task, and what comes back. */

export interface ToolRow {
  readonly equipment: string;
  /** Most in use at once on this EVA, and how many there are. */
  readonly atOnce: number;
  readonly count: number;
  readonly firstS: number;
  readonly uses: readonly PlacedTask[];
}

/** The tools that an EVA needs, by first use. */
export function toolRows({ plan }: Pick<SheetGiven, "plan">, eva: Eva): ToolRow[] {
  const placedTasks = placedTasksOf(plan).filter((placed) => placed.eva === eva.id);
  return plan.equipment
    .flatMap(({ id, count }): ToolRow[] => {
      const usedBy = (placed: PlacedTask): number =>
        placed.task.equipment.filter((one) => one.equipment === id).reduce((sum, one) => sum + one.count, 0);
      const uses = placedTasks.filter((placed) => usedBy(placed) > 0);
      const [first] = uses;
      if (!first) return [];
      const inUse = (atS: number): number =>
        uses
          .filter((placed) => placed.startS <= atS && atS < placed.endS)
          .reduce((sum, placed) => sum + usedBy(placed), 0);
      const atOnce = Math.max(...uses.map((placed) => Math.max(usedBy(placed), inUse(placed.startS))));
      return [{ equipment: id, atOnce, count, firstS: first.startS, uses }];
    })
    .sort((a, b) => a.firstS - b.firstS);
}

/** What tasks carry out from the lander on an EVA, by start. */
export function carriedRows({ plan }: Pick<SheetGiven, "plan">, eva: Eva): PlacedTask[] {
  return placedTasksOf(plan).filter((placed) => placed.eva === eva.id && placed.task.massOutKg > 0);
}

export function stowageBody(given: SheetGiven): Body {
  const { plan } = given;
  const evas = evasOut(given);
  return {
    title: "Tools and stowage by EVA",
    wide: false,
    under: ["What goes out when, in whose hands and for which task, and what returns."],
    key: [
      "AT ONCE: most in use at the same time, of how many there are. Masses rounded up; a share is the mass over those who carry.",
    ],
    sections:
      evas.length === 0
        ? [{ kind: "words", text: "Nobody goes out." }]
        : evas.flatMap(({ eva, outings }): Section[] => {
            const out = `${nameOf(plan.evas, eva.id)}, out ${clock(outings[0].span.startS)}`;
            return [
              toolTable(given, eva, `${out}: tools`),
              carriedTable(given, eva, `${out}: carried out by task`),
            ];
          }),
  };
}

function toolTable(given: SheetGiven, eva: Eva, title: string): Section {
  const { plan } = given;
  const tool = (row: ToolRow) => plan.equipment.find(({ id }) => id === row.equipment);
  return {
    kind: "table",
    title,
    none: "No shared tool is in use.",
    columns: [
      { head: "TOOL", grow: 1.2 },
      { head: "AT ONCE" },
      { head: "FIRST AT", align: "right" },
      { head: "FOR TASK, IN WHOSE HANDS", grow: 2 },
      { head: "EACH", align: "right" },
      { head: "RETURNS" },
      { head: "OUT", blankMm: 13 },
      { head: "BACK", blankMm: 13 },
    ],
    rows: toolRows(given, eva).map((row): Row => ({
      cells: [
        { text: nameOf(plan.equipment, row.equipment) },
        { text: `${row.atOnce} of ${row.count}`, bold: row.atOnce > row.count },
        { text: clock(row.firstS) },
        { text: row.uses.map((placed) => `${placed.number} ${who(given, eva, placed)}`).join(", ") },
        { text: tool(row)?.massKg === undefined ? "?" : mass(tool(row)?.massKg ?? 0, "up") },
        { text: returnsWords(tool(row)?.returns) },
      ],
    })),
  };
}

function carriedTable(given: SheetGiven, eva: Eva, title: string): Section {
  const { plan } = given;
  return {
    kind: "table",
    title,
    none: "Nothing is carried out.",
    columns: [
      { head: "TASK", grow: 2 },
      { head: "FROM", align: "right" },
      { head: "WHO" },
      { head: "OUT", align: "right" },
      { head: "SHARE", align: "right" },
      { head: "ENDS AT", grow: 1.1 },
      { head: "STAYS OR RETURNS", grow: 0.6 },
      { head: "BACK", blankMm: 13 },
    ],
    rows: carriedRows(given, eva).map((placed): Row => ({
      cells: [
        { text: taskName(placed.task), number: placed.number },
        { text: clock(placed.startS) },
        { text: who(given, eva, placed) },
        { text: mass(placed.task.massOutKg, "up") },
        { text: mass(placed.task.massOutKg / Math.max(1, placed.crew.length), "up") },
        { text: placeName(plan, placed.task.endPlace ?? placed.task.place) },
        { text: staysWords(placed.task) },
      ],
    })),
  };
}

function returnsWords(returns: boolean | undefined): string {
  return returns === undefined ? "not known" : returns ? "comes back" : "stays";
}

/** Whether what a task carries out comes back: an instrument stays, for anything else the plan has to say. */
function staysWords(task: Task): string {
  return returnsWords(task.returns ?? (leavesInstrument(task) ? false : undefined));
}

/** Who of an EVA has it in hand: "both" and "all" where nobody has not. */
function who({ plan }: Pick<SheetGiven, "plan">, eva: Eva, { crew }: PlacedTask): string {
  if (eva.crew.length > 1 && crew.length === eva.crew.length) return crew.length === 2 ? "both" : "all";
  return crew.map((id) => nameOf(plan.crew, id)).join(" ");
}
