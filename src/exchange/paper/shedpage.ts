import type { Plan } from "../../plan/index.ts";
import { type CrewEva, nameOf, taskName } from "./crewday.ts";
import { gap, type Heading, type Leaf, leaves, LEFT, paragraph, RIGHT, setLines } from "./cuff.ts";
import type { Block } from "./flow.ts";
import { line, type Mark, rect, text } from "./page.ts";
import { heading } from "./parts.ts";
import { linesHeight, MM_PER_PT, RISE, wrap, wrapAtMost } from "./type.ts";

/** What to drop when late and what to get ahead with when early, by EVA and task left; as the shed order gives it. */
export interface ShedTables {
  readonly minutes: readonly number[];
  /** False when the schedule breaks a rule: then there is no table. */
  readonly sound: boolean;
  readonly evas: readonly {
    readonly eva: string;
    readonly rows: readonly {
      readonly task: string;
      readonly crew: readonly string[];
      readonly late: readonly {
        readonly kind: "keep" | "drop" | "end" | "over";
        readonly drop: readonly string[];
        readonly breaks: readonly string[];
      }[];
      readonly early: readonly {
        readonly minutes: number;
        readonly fits: readonly { readonly task: string; readonly crew: readonly string[] }[];
      }[];
    }[];
  }[];
}

type Row = ShedTables["evas"][number]["rows"][number];
type Cell = Row["late"][number];

/**
 * One table for one crew member on one EVA: a row for each task left, a column for each lateness, the letters of the
 * tasks to drop. Letters count the EVA's tasks by start, the same on everybody's page.
 */
export function shedLeaves(plan: Plan, part: CrewEva, shed: ShedTables, head: Heading): Leaf[] {
  const rows = shed.evas.find((one) => one.eva === part.eva.id)?.rows ?? [];
  const own = rows.filter((row) => row.crew.includes(part.member.id));
  if (!shed.sound) {
    const words = "No shed order: this plan breaks rules.";
    return leaves(head, "if late", [title(ROOMY), paragraph(words, { sizesPt: [14], bold: true })]);
  }
  if (own.length === 0) return [];
  const markOf = new Map(rows.map((row, i) => [row.task, markAt(i, rows.length)]));
  const others = rows.filter(
    (row) =>
      !row.crew.includes(part.member.id) &&
      own.some(({ late }) => late.some(({ drop }) => drop.includes(row.task))),
  );
  const columns = columnsOf(shed.minutes);
  const ahead = own.flatMap((row) => aheadOf(plan, row, markOf));
  const cells = own.flatMap(({ late }) => late);
  const nameOther = (row: Row): string => {
    const who = row.crew.map((id) => nameOf(plan.crew, id)).join(", ");
    return `${markOf.get(row.task)!}: ${nameIn(plan, row.task)}, ${who}.`;
  };
  const key = [
    ...legend(cells, markOf).map((words) => paragraph(words, { sizesPt: [9], after: 0.2 })),
    ...(others.length > 0 ? [paragraph(others.map(nameOther).join(" "), { sizesPt: [9] })] : []),
  ];
  const set = (scale: TableScale, isKeyFirst = false): Leaf[] =>
    leaves(
      head,
      "if late",
      [
        title(scale),
        paragraph("Leaving a task late: leave these out, do the rest in order.", {
          sizesPt: [9.5],
          after: 0.4,
        }),
        ...(isKeyFirst ? key : []),
        columns,
        ...own.map((row) => rowBlock(plan, row, shed.minutes, markOf, scale)),
        ...(isKeyFirst ? [] : [gap(0.8), ...key]),
        ...(ahead.length > 0 ? [heading("IF EARLY, ONE OF"), ...ahead] : []),
      ],
      { again: columns },
    );
  // The roomiest of those that take the fewest pages; names are cut only where that saves one.
  const fewest = (sets: readonly Leaf[][]): Leaf[] =>
    sets.reduce((best, one) => (one.length < best.length ? one : best));
  const SCALES = [ROOMY, NAMED, CLOSE, TIGHT];
  const best = fewest(SCALES.map((scale) => set(scale)));
  // Over several pages the key stands on the first: nobody looks for it on a page that is not open.
  return best.length === 1 ? best : fewest(SCALES.map((scale) => set(scale, true)));
}

/** The page that stands where the table was not worked out, so that nobody looks for it in vain. */
export function noShedLeaves(head: Heading): Leaf[] {
  const words = [
    "There is no table for being late on this paper: it had not been worked out when this was printed.",
    "Late: ask those in charge what to drop.",
  ];
  return leaves(head, "if late", [
    title(ROOMY),
    ...words.map((one) => paragraph(one, { sizesPt: [14], bold: true, after: 2 })),
  ]);
}

interface TableScale {
  readonly titlePt: number;
  readonly nameLines: number;
  readonly afterMm: number;
}
const ROOMY: TableScale = { titlePt: 20, nameLines: 3, afterMm: 1.4 };
const NAMED: TableScale = { titlePt: 12, nameLines: 3, afterMm: 0.5 };
const CLOSE: TableScale = { titlePt: 14, nameLines: 1, afterMm: 0.9 };
const TIGHT: TableScale = { titlePt: 12, nameLines: 1, afterMm: 0.5 };

const NAME_AT = LEFT + 6.5;
const CELLS_AT = LEFT + 39;

function title({ titlePt }: TableScale): Block {
  return paragraph("IF LATE", { sizesPt: [titlePt], bold: true });
}

function nameIn(plan: Plan, id: string): string {
  const task = plan.tasks.find((one) => one.id === id);
  return task ? taskName(task) : id;
}

function widthOf(minutes: readonly number[]): number {
  return (RIGHT - CELLS_AT) / Math.max(1, minutes.length);
}

function columnsOf(minutes: readonly number[]): Block {
  const wide = widthOf(minutes);
  return {
    height: 6.4,
    keep: true,
    draw: (y) => [
      ...text(LEFT, y + 4.6, "LEAVING", { sizePt: 9, bold: true }),
      ...text(CELLS_AT - 1.5, y + 4.6, "MIN", { sizePt: 9, bold: true, align: "right" }),
      ...minutes.flatMap((count, i) =>
        text(CELLS_AT + wide * (i + 0.5), y + 4.8, `${count}`, { sizePt: 13, bold: true, align: "centre" }),
      ),
      line(LEFT, y + 5.9, RIGHT, y + 5.9, 0.5),
    ],
  };
}

const NUMBER = { sizePt: 10.5, bold: true };
const NAME = { sizePt: 9.5, bold: false };

function rowBlock(
  plan: Plan,
  row: Row,
  minutes: readonly number[],
  markOf: ReadonlyMap<string, string>,
  scale: TableScale,
): Block {
  const wide = widthOf(minutes);
  const spans = spansOf(row, markOf).map((span) => ({
    ...span,
    lines: wrap(span.words, wide * span.count - 1, CELL),
  }));
  // Where a cell takes several lines the name may as well.
  const tallest = Math.max(scale.nameLines, ...spans.map(({ lines }) => lines.length));
  const names = namesOf(nameIn(plan, row.task), tallest);
  const nameHigh = linesHeight(names.length, NAME.sizePt);
  const cellHigh = Math.max(0, ...spans.map(({ lines }) => linesHeight(lines.length, CELL.sizePt)));
  const height = Math.max(nameHigh, cellHigh) + scale.afterMm;
  return {
    height,
    draw: (y) => [
      ...text(LEFT + 5, y + 0.4 + RISE * NUMBER.sizePt * MM_PER_PT, markOf.get(row.task)!, {
        ...NUMBER,
        align: "right",
      }),
      ...setLines(names, NAME_AT, y + 0.5, NAME),
      ...spans.flatMap(({ from, count, lines, heavy }): Mark[] => [
        line(CELLS_AT + wide * from, y, CELLS_AT + wide * from, y + height, 0.15),
        ...(heavy ? [rect(CELLS_AT + wide * from + 0.35, y + 0.5, wide * count - 0.7, height - 1, 0.5)] : []),
        ...setLines(lines, CELLS_AT + wide * (from + count / 2), y + 0.4, {
          ...CELL,
          ...(heavy ? FRAMED : {}),
          align: "centre",
        }),
      ]),
      line(LEFT, y + height, RIGHT, y + height, 0.15),
    ],
  };
}

const CELL = { sizePt: 9.5, bold: true };
/** Inside a frame, clear of its sides. */
const FRAMED = { sizePt: 9 };

function namesOf(name: string, most: number): readonly string[] {
  return wrapAtMost(name, CELLS_AT - NAME_AT - 1, NAME, most);
}

interface Span {
  readonly from: number;
  readonly count: number;
  readonly words: string;
  /** Framed: the EVA ends. */
  readonly heavy: boolean;
}

/** Neighbouring columns that say the same, as one cell. */
function spansOf(row: Row, markOf: ReadonlyMap<string, string>): Span[] {
  const spans: Span[] = [];
  row.late.forEach((cell, from) => {
    const words = cellWords(cell, markOf);
    const last = spans.at(-1);
    if (last?.words === words) spans[spans.length - 1] = { ...last, count: last.count + 1 };
    else spans.push({ from, count: 1, words, heavy: cell.kind === "end" || cell.kind === "over" });
  });
  return spans;
}

/** What stands in a cell: go, the letters to leave out, or END. */
function cellWords(cell: Cell, markOf: ReadonlyMap<string, string>): string {
  if (cell.kind === "over") return "END!";
  const rest = cell.breaks.length > 0 ? " *" : "";
  if (cell.kind === "end") return `END${rest}`;
  if (cell.kind === "keep") return `go${rest}`;
  const marks = [...markOf].flatMap(([task, mark]) => (cell.drop.includes(task) ? [mark] : []));
  const more = marks.length < cell.drop.length ? " +" : "";
  return `${marks.join(" ")}${more}${rest}`.trim();
}

const LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ";

/** A letter for each of an EVA's tasks, without I and O; a number where there are more tasks than letters. */
function markAt(i: number, count: number): string {
  return count <= LETTERS.length ? LETTERS[i]! : `${i + 1}`;
}

/** The signs that stand on this page, explained. */
function legend(cells: readonly Cell[], markOf: ReadonlyMap<string, string>): string[] {
  const words: string[] = [];
  if (cells.some(({ kind }) => kind === "keep")) words.push("go: drop nothing.");
  if (cells.some(({ kind }) => kind === "end")) words.push("END: end the EVA.");
  if (cells.some(({ kind }) => kind === "over"))
    words.push("END!: end it at once and tell those in charge, a limit breaks.");
  if (cells.some((cell) => cell.kind !== "over" && cell.breaks.length > 0))
    words.push("*: rest at the next stop.");
  if (cells.some((cell) => cell.kind === "drop" && cell.drop.some((task) => !markOf.has(task))))
    words.push("+: work elsewhere falls with it.");
  return words.length > 0 ? [words.join(" ")] : [];
}

/** What a crew member can get ahead with: for each task the fewest minutes that something fits, the two worthiest. */
function aheadOf(plan: Plan, row: Row, markOf: ReadonlyMap<string, string>): Block[] {
  const first = row.early.find(({ fits }) => fits.length > 0);
  if (!first) return [];
  const names = first.fits.slice(0, 2).map(({ task }) => nameIn(plan, task));
  return [
    paragraph(`${first.minutes} min early leaving ${markOf.get(row.task)!}: ${names.join(", or ")}.`, {
      sizesPt: [10],
      after: 0.3,
    }),
  ];
}
