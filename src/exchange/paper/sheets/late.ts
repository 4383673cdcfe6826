import type { Chance, Outcome, LateEntry, LateTable, LateRow } from "../../../answers/index.ts";
import { isEqual } from "../../../kernel/index.ts";
import { ruleInWords } from "../../../rules/index.ts";
import { clock, grouped, minutes, taskNumber, untriedWords } from "../../../words/index.ts";
import { nameOf, taskName } from "../crewday.ts";
import { type Body, type Cell, EMPTY, type Row, type Section, type Table } from "./body.ts";
import { type SheetGiven } from "./given.ts";

/** The late table whole: what is done when a task is left so many minutes late, and what fits when it is left early. */

/** One answer to being late, for all the minutes for which it is the same. */
export interface LateLine {
  readonly minutes: readonly number[];
  /** The task is done by then at the latest. */
  readonly doneByS: number;
  readonly kind: LateEntry["kind"];
  /** What stands over the columns of tasks: all of the answer where nobody's order changes. */
  readonly says: string;
  /** Numbers of tasks, as in all that follows. */
  readonly out: readonly string[];
  readonly takeUp: readonly string[];
  readonly orders: readonly { readonly who: string; readonly tasks: readonly string[] }[];
  /** Of the simulated days, and of the latest of the minutes; null where a limit is broken already. */
  readonly result: Outcome | null;
}

/** The answers to leaving one task late, soonest first; neighbours that say the same are one, with the worse of their results. */
export function lateLines({ plan }: Pick<SheetGiven, "plan">, row: LateRow): LateLine[] {
  const lines: LateLine[] = [];
  for (const cell of row.late) {
    const line = lineOf(plan, row, cell);
    const before = lines.at(-1);
    if (before && isEqual(toDo(before), toDo(line)))
      lines.splice(-1, 1, {
        ...line,
        minutes: [...before.minutes, ...line.minutes],
        result: worse(before.result, line.result),
      });
    else lines.push(line);
  }
  return lines;
}

function toDo({ kind, says, out, takeUp, orders }: LateLine): object {
  return { kind, says, out, takeUp, orders };
}

/** Neighbours share a line of figures: each is the lower of the two. */
function worse(a: Outcome | null, b: Outcome | null): Outcome | null {
  if (!a || !b) return null;
  return {
    home: a.home.share < b.home.share ? a.home : b.home,
    must: a.must.share < b.must.share ? a.must : b.must,
    meanWorth: Math.min(a.meanWorth, b.meanWorth),
  };
}

function lineOf(plan: SheetGiven["plan"], row: LateRow, cell: LateEntry): LateLine {
  const number = (task: string): string => taskNumber(plan, task);
  return {
    minutes: [cell.minutes],
    doneByS: row.endS + cell.minutes * 60,
    kind: cell.kind,
    says: sayingOf(cell, number),
    out: cell.drop.map(number),
    takeUp: cell.add.map(number),
    orders: cell.then.map(({ crew, tasks }) => ({
      who: nameOf(plan.crew, crew),
      tasks: tasks.map(number),
    })),
    result: cell.result,
  };
}

const SAYINGS: Readonly<Record<LateEntry["kind"], string>> = {
  keep: "GO ON as planned",
  drop: "all else as planned",
  change: "",
  end: "END: walk home",
  over: "END AT ONCE, tell those in charge: breaks",
};

function sayingOf({ kind, breaks, voided, then }: LateEntry, number: (task: string) => string): string {
  const rules = breaks.map(ruleInWords).join(", ");
  // Where nobody's order changes, only when the rest begins is otherwise.
  const isOrderKept = kind === "change" && then.length === 0;
  const parts = [
    isOrderKept ? "all else in its planned order" : "",
    kind === "over"
      ? `${SAYINGS.over} ${rules === "" ? "a limit" : rules}${untriedWords(breaks)}`
      : SAYINGS[kind],
    kind !== "over" && breaks.length > 0 ? "rest at the next stop" : "",
    voided.length > 0 ? `in vain ${voided.map(number).join(", ")}` : "",
  ];
  return parts.filter((part) => part !== "").join("; ");
}

/** A chance as it is counted, and its sampling error under it. */
function chanceCell({ words }: Chance): Cell {
  const [, share = words, between] = /^(.*) \((.*)\)$/.exec(words) ?? [];
  return { text: share, ...(between === undefined ? {} : { under: between }) };
}

export function lateBody(given: SheetGiven): Body {
  const { lateTable } = given;
  return {
    title: "If late",
    wide: false,
    under: [
      "A task is done late: find it and the minutes, leave out what is named, go on in the order named.",
    ],
    key: [
      "Numbers are of tasks. THEN DO: all that this one still does, in this order. Taken up: not planned until then. In vain: lost though done. Rest at the next stop: the stretch of work gets too long. " +
        `No rule is broken at likely durations unless it says so; what to leave out and the order are the best found, not the best there is. ALL HOME, MUST-DO: share of ${lateTable?.days ?? 0} simulated days, the day as planned until then, with everybody home inside every limit, and with every must-do task done; under it where 95 of 100 such counts have the true chance. WORTH: of the whole day on those days, on average. Of several minutes each figure is the lowest.`,
    ],
    sections: sectionsOf(given),
  };
}

function sectionsOf(given: SheetGiven): Section[] {
  const { lateTable } = given;
  if (!lateTable?.complete)
    return [
      { kind: "words", bold: true, text: "NOT WORKED OUT: late, ask those in charge what to leave out." },
    ];
  if (!lateTable.sound) return [{ kind: "words", bold: true, text: "NO TABLE: this plan breaks rules." }];
  return lateTable.evas.flatMap((eva) => [namesTable(given, eva), answersTable(given, eva)]);
}

function answersTable(given: SheetGiven, { eva, rows }: LateTable): Table {
  const { plan } = given;
  return {
    kind: "table",
    title: `${nameOf(plan.evas, eva)}, when late`,
    none: "No task on this EVA.",
    columns: [
      { head: "HOW LATE" },
      { head: "DONE BY", align: "right" },
      { head: "LEAVE OUT", grow: 1 },
      { head: "THEN DO, IN THIS ORDER", grow: 3 },
      { head: "ALL HOME", align: "right" },
      { head: "MUST-DO", align: "right" },
      { head: "WORTH", align: "right" },
    ],
    rows: rows.flatMap((row) => [
      leadOf(given, row),
      ...lateLines(given, row).flatMap(rowsOf),
      ...earlyRows(given, row),
    ]),
  };
}

/** The task that is left late, over its answers. */
function leadOf({ plan }: SheetGiven, { task, crew, endS }: LateRow): Row {
  const name = plan.tasks.find(({ id }) => id === task);
  const who = crew.map((id) => nameOf(plan.crew, id)).join(" ");
  return {
    leads: true,
    cells: [
      { text: name ? taskName(name) : task, number: taskNumber(plan, task), span: 3 },
      { text: `${who === "" ? "" : `${who}, `}planned end ${clock(endS)}`, span: 4 },
    ],
  };
}

/** An answer as a row for everybody who goes on in another order. */
function rowsOf({ minutes: late, doneByS, kind, says, out, takeUp, orders, result }: LateLine): Row[] {
  const head: Cell[] = [
    { text: `${late.join(", ")} min` },
    // Where a limit is broken already there is no hour until which all is well.
    { text: kind === "over" ? "" : clock(doneByS, "down") },
  ];
  const figures: Cell[] = [
    result ? chanceCell(result.home) : EMPTY,
    result ? chanceCell(result.must) : EMPTY,
    { text: result ? grouped(Math.floor(result.meanWorth)) : "" },
  ];
  if (kind === "keep" || kind === "end" || kind === "over")
    return [{ cells: [...head, { text: says, span: 2, bold: kind !== "keep" }, ...figures] }];
  const left: Cell = { text: out.length > 0 ? out.join(", ") : "nothing", bold: true };
  if (orders.length === 0) return [{ cells: [...head, left, { text: says }, ...figures] }];
  return orders.map(({ who, tasks }, i): Row => {
    const isLast = i === orders.length - 1;
    // What is taken up stands in somebody's order.
    const taken = tasks.filter((task) => takeUp.includes(task));
    const under = [taken.length > 0 ? `taken up: ${taken.join(", ")}` : "", isLast ? says : ""].filter(
      (part) => part !== "",
    );
    const order: Cell = {
      text: `${who}: ${tasks.length === 0 ? "home" : tasks.join(", ")}`,
      ...(under.length > 0 ? { under: under.join("; ") } : {}),
    };
    const before = i === 0 ? [...head, left] : [EMPTY, EMPTY, EMPTY];
    return { joined: !isLast, cells: [...before, order, ...(i === 0 ? figures : [])] };
  });
}

/** For the fewest minutes with which something fits, all that fits then. */
function earlyRows({ plan }: SheetGiven, { early }: LateRow): Row[] {
  const first = early.find(({ fits }) => fits.length > 0);
  if (!first) return [];
  const fits = first.fits.map(({ task }) => taskNumber(plan, task)).join(" or ");
  return [
    {
      cells: [
        { text: `${minutes(first.minutes * 60, "given")} early`, span: 2 },
        { text: `one more fits: ${fits}`, span: 5 },
      ],
    },
  ];
}

/** Names in a row of the table of numbers. */
const NAMES_ACROSS = 3;

/** What the numbers of an EVA's answers stand for, down and then across. */
function namesTable({ plan }: SheetGiven, { eva, rows }: LateTable): Table {
  const named = new Set(
    rows.flatMap(({ task, late, early }) => [
      task,
      ...late.flatMap(({ drop, voided, add, then }) => [
        ...drop,
        ...voided,
        ...add,
        ...then.flatMap(({ tasks }) => tasks),
      ]),
      ...early.flatMap(({ fits }) => fits.map((one) => one.task)),
    ]),
  );
  const order = new Intl.Collator("en", { numeric: true });
  const cells = plan.tasks
    .filter(({ id }) => named.has(id))
    .map((task): Cell & { number: string } => ({ text: taskName(task), number: taskNumber(plan, task.id) }))
    .sort((a, b) => order.compare(a.number, b.number));
  const high = Math.ceil(cells.length / NAMES_ACROSS);
  return {
    kind: "table",
    title: `${nameOf(plan.evas, eva)}, numbers`,
    mostPt: 8,
    none: "No task on this EVA.",
    columns: Array.from({ length: NAMES_ACROSS }, () => ({ head: "TASK", grow: 1 })),
    rows: Array.from({ length: high }, (_, i) => ({
      cells: cells.filter((_one, k) => k % high === i),
    })),
  };
}
