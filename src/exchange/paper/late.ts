import type { Verdict } from "../../answers/index.ts";
import { isEqual } from "../../kernel/index.ts";
import type { Placement, Plan } from "../../plan/index.ts";
import { type PackerRule, ruleInWords } from "../../rules/index.ts";
import { LateDays, type Obeyed, type RestBefore } from "./lateday.ts";

/** What to leave out when late, by EVA and task left; as the late table gives it. */
export interface LateTables {
  readonly minutes: readonly number[];
  /** False when the schedule breaks a rule: then there is no table. */
  readonly sound: boolean;
  readonly evas: readonly {
    readonly eva: string;
    readonly rows: readonly {
      readonly task: string;
      readonly late: readonly LateCell[];
    }[];
  }[];
}

export interface LateCell {
  readonly minutes: number;
  readonly kind: "keep" | "drop" | "change" | "end" | "over";
  readonly drop: readonly string[];
  readonly breaks: readonly PackerRule[];
  readonly moves: readonly Placement[];
  readonly then: readonly { readonly crew: string; readonly tasks: readonly string[] }[];
}

/** One answer: done by then at the latest, leave these out, go on in this order. */
export interface LateAnswer {
  readonly doneByS: number;
  /** Ids of tasks, in the order of planned starts; none where all is kept. */
  readonly leaveOut: readonly string[];
  /** By crew member who goes on in another order than printed: their tasks from then on. */
  readonly then: LateCell["then"];
  /** Rests to take that stand on no page. */
  readonly rests: readonly RestBefore[];
  /** Who goes on in another order begins each task on arrival; else never before the START of its page. */
  readonly onArrival: boolean;
  /** Tasks that begin no sooner than this, whatever else is said, s. */
  readonly from: Obeyed["from"];
  /** Nothing of the rest: walk home. */
  readonly home: boolean;
}

/** What stands on a page for being late. */
export interface Late {
  /** Soonest first, the later of equal ones; beyond the last one they call. */
  readonly answers: readonly LateAnswer[];
  /** Why there is none. */
  readonly why: string;
}

/** The answer for a task that is done at `doneS`, as it is found on paper: the first whose time is not over. None where they call. */
export function answerAt({ answers }: Late, doneS: number): LateAnswer | undefined {
  return answers.find(({ doneByS }) => doneS <= doneByS);
}

/**
 * The answers for a page, and for the sheet of what to do when late. Each is a day that the judge has tested, as the table has it and as paper is obeyed: the task takes so much longer, or less, back to
 * the answer before it; what is left out is gone, and nobody begins before START, unless told to. An answer that breaks a rule, whatever the table says, or
 * asks for a rest that nobody can be told of, never stands on a page. Where the answer for fewer minutes does not stand, the next one may answer for them too, if it holds for
 * them as well and neither sends home nor gives up must-do work: for that they call.
 */
export function lateAnswers(plan: Plan, verdict: Verdict, lateTable: LateTables | undefined) {
  const days = new LateDays(plan, verdict);
  const known = new Map<string, Late>();
  const none = (why: string): Late => ({ answers: [], why: `call: ${why}` });
  return (eva: string, task: string, endS: number): Late => {
    if (!lateTable) return none("late times not worked out");
    if (!lateTable.sound) return none("this plan breaks rules");
    const row = lateTable.evas.find((one) => one.eva === eva)?.rows.find((one) => one.task === task);
    if (!row) return none("late times not worked out");
    const key = `${eva} ${task}`;
    // Who does a task together reads the same answers.
    const late = known.get(key) ?? {
      answers: answersOf(plan, days, { eva, task, endS }, row.late),
      why: whyNone(row.late),
    };
    known.set(key, late);
    return late;
  };
}

function answersOf(
  plan: Plan,
  days: LateDays,
  lateTask: { readonly eva: string; readonly task: string; readonly endS: number },
  cells: readonly LateCell[],
): LateAnswer[] {
  const mustDo = new Set(plan.tasks.filter((task) => task.must).map(({ id }) => id));
  const answers: LateAnswer[] = [];
  let open: number[] = [];
  for (const cell of cells) {
    const home = cell.kind === "end";
    const lateS = cell.minutes * 60;
    const between = betweenS(lateTask.endS, answers.at(-1)?.doneByS ?? lateTask.endS, lateS);
    open = [lateS, ...open];
    if (cell.kind === "over" || cell.breaks.length > 0) continue;
    if (open.length > 1 && (home || cell.drop.some((id) => mustDo.has(id)))) break;
    const obeyed = days.answer(lateTask, lateS, [...open.slice(1), ...between], cell);
    if (obeyed === null) continue;
    open = [];
    const { drop: leaveOut, then } = cell;
    const answer = { doneByS: lateTask.endS + lateS, leaveOut, then, ...obeyed, home };
    const before = answers.at(-1);
    // Being later by more with the same to do is one answer.
    if (before && isEqual({ ...before, doneByS: 0 }, { ...answer, doneByS: 0 })) answers.pop();
    answers.push(answer);
  }
  return answers;
}

/**
 * So much late a task may be, s, when somebody looks for the answer and finds this one: just later than the answer before it, between the two, and the
 * minute that is printed. Starts go with lateness as far as something holds them, so what breaks at all mostly breaks at an end.
 */
function betweenS(endS: number, sinceS: number, lateS: number): number[] {
  const printedS = (atS: number): number => Math.floor(atS / 60) * 60 - endS;
  const fromS = printedS(sinceS) + 1;
  const middleS = printedS(endS + (fromS + lateS) / 2);
  return [printedS(endS + lateS), Math.max(1, fromS), middleS].filter((one) => one > 0 && one !== lateS);
}

/** Why the first minutes late have no answer. */
function whyNone([first]: readonly LateCell[]): string {
  return `call: ${(first && whyBroken(first)) ?? "no tested answer"}`;
}

/** The rule that being so late breaks by itself; null where it breaks none. */
export function whyBroken({ minutes, breaks: [rule] }: Pick<LateCell, "minutes" | "breaks">): string | null {
  return rule === undefined ? null : `${minutes} min breaks ${ruleInWords(rule)}`;
}
