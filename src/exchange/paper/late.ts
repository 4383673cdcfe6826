import type { Rest, Verdict } from "../../answers/index.ts";
import { judgeFor } from "../../check/index.ts";
import { duration, isEqual } from "../../kernel/index.ts";
import type { Placement, Plan, Schedule } from "../../plan/index.ts";

/** What to leave out when late, by EVA and task left; as the shed order gives it. */
export interface ShedTables {
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
  readonly breaks: readonly string[];
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

/**
 * The answers for a page. Each is a day that the judge has tested: the task takes so much longer, what is left out is gone, and the rest starts
 * when the table says. An answer that breaks a rule, whatever the table says, or asks for a rest that no page tells of, never stands on a page.
 * Where the answer for fewer minutes does not stand, the next one may answer for them too, if it holds for them as well and neither sends home nor
 * gives up must-do work: for that they call.
 */
export function lateAnswers(plan: Plan, verdict: Verdict, shed: ShedTables | undefined) {
  const rests = new Set(verdict.rests.map(restKey));
  const mustDo = new Set(plan.tasks.filter((task) => task.must).map(({ id }) => id));
  return (eva: string, task: string, endS: number): Late => {
    if (!shed) return { answers: [], why: "call: late times not worked out" };
    if (!shed.sound) return { answers: [], why: "call: this plan breaks rules" };
    const row = shed.evas.find((one) => one.eva === eva)?.rows.find((one) => one.task === task);
    if (!row) return { answers: [], why: "call: late times not worked out" };
    const answers: LateAnswer[] = [];
    let open: number[] = [];
    for (const cell of row.late) {
      // Its own minutes first: what fails mostly fails there.
      open = [cell.minutes, ...open];
      const home = cell.kind === "end";
      if (cell.kind === "over" || cell.breaks.length > 0) continue;
      if (open.length > 1 && (home || cell.drop.some((id) => mustDo.has(id)))) break;
      if (!open.every((minutes) => holds(plan, task, { ...cell, minutes }, verdict, rests))) continue;
      open = [];
      const { drop: leaveOut, then } = cell;
      const answer = { doneByS: endS + cell.minutes * 60, leaveOut, then, home };
      const before = answers.at(-1);
      // Being later by more with the same to do is one answer.
      if (before && isEqual({ ...before, doneByS: 0 }, { ...answer, doneByS: 0 })) answers.pop();
      answers.push(answer);
    }
    return { answers, why: "call: no tested answer" };
  };
}

function restKey({ eva, crew, before }: Rest): string {
  return [eva, crew, before].join(" ");
}

/** Whether the day holds with the task that much longer, as the judge sees it, and asks for no rest that no page tells of. */
function holds(
  plan: Plan,
  task: string,
  { minutes, drop, moves }: LateCell,
  verdict: Verdict,
  rests: ReadonlySet<string>,
): boolean {
  const longer: Plan = {
    ...plan,
    tasks: plan.tasks.map((one) =>
      one.id === task
        ? { ...one, duration: { likelyS: duration(one.duration.likelyS + minutes * 60) } }
        : one,
    ),
  };
  const other = new Set([...drop, ...moves.map((one) => one.task)]);
  const stays = plan.schedule.placements.filter((one) => !other.has(one.task));
  const schedule: Schedule = { placements: [...stays, ...moves] };
  const then = judgeFor(longer)(schedule);
  return then.score.breaches <= verdict.score.breaches && then.rests.every((one) => rests.has(restKey(one)));
}
