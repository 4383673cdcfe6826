import type { LateEntry, LateRow, Outcome } from "../../../answers/index.ts";
import { isEqual } from "../../../kernel/index.ts";
import { ruleInWords } from "../../../rules/index.ts";
import { taskNumber, untriedWords } from "../../../words/index.ts";
import { nameOf } from "../crewday.ts";
import { answerAt, type Late, type LateAnswer, whyBroken } from "../late.ts";
import { heldWords, restLabel, restWords } from "../latestrip.ts";
import type { SheetGiven } from "./given.ts";

/**
 * What is done when a task is left late, from the same answers as the strips of the crew's pages. What the table found and the judge has not passed as paper
 * is obeyed is no answer on either.
 */

/** One answer to being late, for all the minutes for which it is the same. */
export interface LateLine {
  readonly minutes: readonly number[];
  /** The task is done by then at the latest. */
  readonly doneByS: number;
  /** untested: nobody has tested what was found, or nothing was. */
  readonly kind: LateEntry["kind"] | "untested";
  /** What stands over the columns of tasks: all of the answer where nobody's order changes. */
  readonly says: string;
  /** Numbers of tasks, as in all that follows. */
  readonly out: readonly string[];
  readonly takeUp: readonly string[];
  readonly orders: readonly { readonly who: string; readonly tasks: readonly string[] }[];
  /** Of the simulated days, and of the latest of the minutes; null where a limit is broken already, and of what is no answer. */
  readonly result: Outcome | null;
}

/** The answers to leaving one task late, soonest first; neighbours that say the same are one, with the worse of their results. */
export function lateLines({ plan }: Pick<SheetGiven, "plan">, row: LateRow, late: Late): LateLine[] {
  const lines: LateLine[] = [];
  for (const cell of row.late) {
    const line = lineOf(plan, row, cell, answerAt(late, row.endS + cell.minutes * 60));
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

function lineOf(
  plan: SheetGiven["plan"],
  row: LateRow,
  cell: LateEntry,
  answer: LateAnswer | undefined,
): LateLine {
  const number = (task: string): string => taskNumber(plan, task);
  const line = { minutes: [cell.minutes], doneByS: row.endS + cell.minutes * 60 };
  if (!answer) return { ...line, ...unanswered(cell, number) };
  const does = foundFor(row, cell, answer);
  return {
    ...line,
    kind: does.kind,
    says: [...sayings(does, number), ...obeyedWords(plan, answer)].join("; "),
    out: answer.leaveOut.map(number),
    takeUp: does.add.map(number),
    orders: answer.then.map(({ crew, tasks }) => ({
      who: nameOf(plan.crew, crew),
      tasks: tasks.map(number),
    })),
    result: does.result,
  };
}

/** What the table has of an answer: at these minutes, or at the later ones that it was worked out for. */
function foundFor({ late, endS }: LateRow, cell: LateEntry, answer: LateAnswer): LateEntry {
  const isIt = ({ kind, drop, then, breaks }: LateEntry): boolean =>
    breaks.length === 0 &&
    isEqual(
      { home: kind === "end", drop, then },
      { home: answer.home, drop: answer.leaveOut, then: answer.then },
    );
  return isIt(cell) ? cell : (late.find(({ minutes }) => endS + minutes * 60 === answer.doneByS) ?? cell);
}

/** What only walking home at once is left of is said as it is; anything else that was not tested is not said at all. */
function unanswered(
  cell: LateEntry,
  number: (task: string) => string,
): Omit<LateLine, "minutes" | "doneByS"> {
  const { kind, breaks, voided } = cell;
  const none = { takeUp: [], orders: [], result: null };
  if (kind === "over") {
    const rules = breaks.map(ruleInWords).join(", ");
    const broken = `END AT ONCE, tell those in charge: breaks ${rules === "" ? "a limit" : rules}${untriedWords(breaks)}`;
    return {
      kind,
      says: [broken, ...inVain(voided, number)].join("; "),
      out: cell.drop.map(number),
      ...none,
    };
  }
  const why = whyBroken(cell);
  if (kind === "end")
    return { kind, says: `END: walk home, tell those in charge: ${why ?? "not tested"}`, out: [], ...none };
  return {
    ...{ kind: "untested", out: [], ...none },
    says: `NO TESTED ANSWER: ${why === null ? "" : `${why}, `}ask those in charge`,
  };
}

/** Beside what it does: which START holds, what is held back, and the rests that no page tells of. */
function obeyedWords(plan: SheetGiven["plan"], answer: LateAnswer): string[] {
  const held = heldWords(plan, answer, null);
  const start = answer.then.length > 0 ? [answer.onArrival ? "on arrival" : "as printed"] : [];
  const rests = restWords(plan, answer, null);
  return [
    ...(start.length + held.length > 0 ? [`START ${[...start, ...held].join(", ")}`] : []),
    ...(rests.length > 0 ? [`${restLabel(plan)} ${rests.join(", ")}`] : []),
  ];
}

const SAYINGS: Readonly<Record<Exclude<LateEntry["kind"], "over">, string>> = {
  keep: "GO ON as planned",
  drop: "all else as planned",
  change: "",
  end: "END: walk home",
};

function sayings({ kind, voided, then }: LateEntry, number: (task: string) => string): string[] {
  // Where nobody's order changes, only when the rest begins is otherwise.
  const isOrderKept = kind === "change" && then.length === 0;
  const words = isOrderKept ? "all else in its planned order" : kind === "over" ? "" : SAYINGS[kind];
  return [...(words === "" ? [] : [words]), ...inVain(voided, number)];
}

function inVain(voided: readonly string[], number: (task: string) => string): string[] {
  return voided.length > 0 ? [`in vain ${voided.map(number).join(", ")}`] : [];
}
