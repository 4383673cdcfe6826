import type { Chance, LateRow, LateTable } from "../../../answers/index.ts";
import { clock, grouped, minutes, taskNumber } from "../../../words/index.ts";
import { nameOf, taskName } from "../crewday.ts";
import { lateAnswers } from "../late.ts";
import { type Body, type Cell, EMPTY, type Row, type Section, type Table } from "./body.ts";
import { type SheetGiven } from "./given.ts";
import { type LateLine, lateLines } from "./latelines.ts";

/** The late table whole: what is done when a task is left so many minutes late, and what fits when it is left early. */

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
      "Numbers are of tasks. THEN DO: all that this one still does, in this order. Taken up: not planned until then. In vain: lost though done. START, REST: beside what stands on pages. " +
        `Answers are those of the cuff pages: the judge has tested each as pages are obeyed, at likely durations, and no rule is broken; where there is none the crew calls. What to leave out and the order are the best found, not the best there is. ALL HOME, MUST-DO: share of ${lateTable?.days ?? 0} simulated days, the day as planned until then, with everybody home inside every limit, and with every must-do task done; under it where 95 of 100 such counts have the true chance. WORTH: of the whole day on those days, on average. Of several minutes each figure is the lowest.`,
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
  const late = lateAnswers(given.plan, given.verdict, lateTable);
  return lateTable.evas.flatMap((eva) => [namesTable(given, eva), answersTable(given, eva, late)]);
}

function answersTable(
  given: SheetGiven,
  { eva, rows }: LateTable,
  late: ReturnType<typeof lateAnswers>,
): Table {
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
      ...lateLines(given, row, late(eva, row.task, row.endS)).flatMap(rowsOf),
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
    // Where a limit is broken already, or nothing was tested, there is no hour until which all is well.
    { text: result === null ? "" : clock(doneByS, "down") },
  ];
  const figures: Cell[] = [
    result ? chanceCell(result.home) : EMPTY,
    result ? chanceCell(result.must) : EMPTY,
    { text: result ? grouped(Math.floor(result.meanWorth)) : "" },
  ];
  if (kind === "keep" || kind === "end" || kind === "over" || kind === "untested")
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

/** For the fewest minutes with which something fits, all that fits then: found, but not tested as paper is obeyed. */
function earlyRows({ plan }: SheetGiven, { early }: LateRow): Row[] {
  const first = early.find(({ fits }) => fits.length > 0);
  if (!first) return [];
  const fits = first.fits.map(({ task }) => taskNumber(plan, task)).join(" or ");
  return [
    {
      cells: [
        { text: `${minutes(first.minutes * 60, "given")} early`, span: 2 },
        { text: `one more may fit, ask those in charge: ${fits}`, span: 5 },
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
