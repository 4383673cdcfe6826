import type { Outcome, LateEntry, LateReport } from "../../answers/index.ts";
import { isEqual } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import { ruleInWords } from "../../rules/index.ts";
import { counted, grouped, untriedWords } from "../../words/index.ts";
import { chanceFigure } from "../chancewords.ts";

/** Neighbours of a row that say the same to do: the first one, the last one, and how many. */
export interface JoinedCell {
  readonly cell: LateEntry;
  readonly last: LateEntry;
  readonly span: number;
}

/** Cells of a row, equal neighbours taken together: what to do from the first one's lateness on. */
export function joinedCells(cells: readonly LateEntry[]): readonly JoinedCell[] {
  const joined: JoinedCell[] = [];
  for (const cell of cells) {
    const before = joined.at(-1);
    if (before && sameOrder(before.cell, cell))
      joined.splice(-1, 1, { ...before, last: cell, span: before.span + 1 });
    else joined.push({ cell, last: cell, span: 1 });
  }
  return joined;
}

/** What a crew that does it comes to on the simulated days; null where a limit is broken already. */
export function resultWords({ result }: LateEntry): string | null {
  return result && outcomeWords(result);
}

/** `must-do 86 %, worth 1 578`, and how many come home where not everybody always does. */
function outcomeWords({ home, must, meanWorth }: Outcome): string {
  const homeWords = home.count < home.of ? `everybody home ${chanceFigure(home)}, ` : "";
  return `${homeWords}must-do ${chanceFigure(must)}, worth ${grouped(Math.floor(meanWorth))}`;
}

/** By how many points a share in the tables may be off at most, in 95 of 100 such runs, rounded up; null where they have none. */
export function widestError({ evas }: LateReport): number | null {
  const shares = evas.flatMap(({ rows }) =>
    rows.flatMap(({ late }) => late.flatMap(({ result }) => (result ? [result.must] : []))),
  );
  if (shares.length === 0) return null;
  return Math.ceil(
    Math.max(...shares.map(({ share, low, high }) => Math.max(share - low, high - share))) * 100,
  );
}

/** What only leaving out would come to, where something else does more. */
export function aloneWords({ alone }: LateEntry): string | null {
  if (!alone) return null;
  const { mustLost, worthLost, result } = alone;
  const lost = mustLost > 0 ? `${counted(mustLost, "must-do", "must-do")} and worth` : "worth";
  return `Only leaving out would lose ${lost} ${worthLost}: ${outcomeWords(result)}.`;
}

/** How what an order is made of is said, and in what order each crew member was to do the tasks of the EVA. */
export interface OrderWords {
  readonly nameOf: (task: string) => string;
  readonly crewOf: (crew: string) => string;
  readonly plannedOf: (crew: string) => readonly string[];
}

/** What a cell tells the crew to do. */
export interface EntryWords {
  /** What is left out, taken up or ended; empty where only the order is another. */
  readonly does: readonly string[];
  /** What is done in vain then, and which rules are broken all the same. */
  readonly but: readonly string[];
  /** By crew member in which order to go on, where it is not the plan's. */
  readonly orders: readonly string[];
}

/**
 * What a cell tells the crew to do: tasks by number and name, of a whole order those by which it differs from the plan; where the rest is
 * what the plan has, in its order, only the task from which on it is.
 */
export function entryWords(cell: LateEntry, words: OrderWords): EntryWords {
  const { nameOf } = words;
  const named = (tasks: readonly string[]): string => tasks.map(nameOf).join(", ");
  const untried = cell.kind === "over" ? untriedWords(cell.breaks) : "";
  return {
    does: doesWords(cell, named),
    but: [
      ...(cell.voided.length > 0 ? [`in vain: ${named(cell.voided)}`] : []),
      ...(cell.breaks.length > 0 ? [`breaks ${cell.breaks.map(ruleInWords).join(", ")}${untried}`] : []),
    ],
    orders: cell.kind === "change" ? cell.then.map((order) => orderWords(order, cell.drop, words)) : [],
  };
}

function doesWords(
  { kind, drop, add }: LateEntry,
  named: (tasks: readonly string[]) => string,
): readonly string[] {
  switch (kind) {
    case "keep":
      return ["drop nothing"];
    case "drop":
      return [`drop ${named(drop)}`];
    case "change":
      return [
        ...(drop.length > 0 ? [`drop ${named(drop)}`] : []),
        ...(add.length > 0 ? [`take up ${named(add)}`] : []),
      ];
    case "end":
      return ["end the EVA"];
    case "over":
      return ["end the EVA at once"];
  }
}

/** `EV1 then 31 Chips, 20 Raise the mast, then as planned from 26 Dig`. */
function orderWords(
  { crew, tasks }: LateEntry["then"][number],
  dropped: readonly string[],
  { nameOf, crewOf, plannedOf }: OrderWords,
): string {
  if (tasks.length === 0) return `${crewOf(crew)} then goes home`;
  const planned = plannedOf(crew).filter((task) => !dropped.includes(task));
  const from = sameEnd(tasks, planned);
  // A rest of one or two is said sooner than that it is as planned.
  if (tasks.length - from < LONG_REST) return `${crewOf(crew)} then ${tasks.map(nameOf).join(", ")}`;
  const rest = `as planned from ${nameOf(tasks[from]!)} on`;
  const before = tasks.slice(0, from).map(nameOf).join(", ");
  return `${crewOf(crew)} then ${before === "" ? rest : `${before}, then ${rest}`}`;
}

/** What each crew member does on an EVA as planned, by start. */
export function orderOn({ schedule }: Pick<Plan, "schedule">, eva: string): OrderWords["plannedOf"] {
  const inOrder = schedule.placements
    .filter((placement) => placement.eva === eva)
    .toSorted((a, b) => a.startS - b.startS);
  return (crew) => inOrder.filter((placement) => placement.crew.includes(crew)).map(({ task }) => task);
}

/** A rest of so many tasks is not told one by one. */
const LONG_REST = 3;

/** From which place of a list on it ends as another list does. */
function sameEnd<Item>(list: readonly Item[], other: readonly Item[]): number {
  let same = 0;
  while (same < list.length && same < other.length && list.at(-1 - same) === other.at(-1 - same)) same += 1;
  return list.length - same;
}

function sameOrder(a: LateEntry, b: LateEntry): boolean {
  const order = ({ kind, least, drop, voided, breaks, add, then }: LateEntry): unknown => [
    [kind, least, breaks],
    [drop, voided, add, then],
  ];
  return isEqual(order(a), order(b));
}
