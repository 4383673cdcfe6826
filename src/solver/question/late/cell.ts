import type { LateEntry } from "../../../answers/index.ts";
import type { Placement, Schedule } from "../../../plan/index.ts";
import { isEqual } from "../../../kernel/index.ts";
import { type PackerRule, ruleInWords } from "../../../rules/index.ts";
import { listed, untriedWords } from "../../../words/index.ts";
import type { Problem } from "../../problem/problem.ts";
import { scheduleFrom } from "../trial/placed.ts";
import type { Change } from "./changing.ts";
import { type Dropped, lossOf } from "./dropping.ts";
import type { Played } from "./played.ts";
import type { Remainder } from "./remainder.ts";

/** One lateness of one task. */
export interface Lateness {
  readonly remainder: Remainder;
  readonly schedule: Schedule;
  /** What is still to come on the EVA. */
  readonly ahead: readonly number[];
  readonly minutes: number;
  readonly lengthS: number;
  /** What being so late breaks by itself. */
  readonly breaks: readonly PackerRule[];
}

/** What to do when so late: `change` where there is one, else leave `dropped` out, else end at once. */
export function cellOf(
  problem: Problem,
  { remainder, schedule, ahead, minutes, lengthS, breaks: faults }: Lateness,
  dropped: Dropped | null,
  change: Change | null,
  played: Played,
): LateEntry {
  const { plan } = problem;
  const ids = (list: readonly number[]): string[] => list.map((a) => plan.tasks[a]!.id);
  const done = change ?? dropped;
  const drop = done ? done.drop : remainder.open;
  const loss = done ?? lossOf(problem, remainder, drop);
  const kind = kindOf(ahead, drop, done, change);
  const breaks: readonly PackerRule[] = !dropped ? faults : dropped.tolerant ? ["work-and-rest"] : [];
  const left = dropped && scheduleFrom(remainder.problem, dropped.placings);
  const then = change ? thenOf(problem, remainder, schedule, change.schedule) : [];
  const cell = {
    minutes,
    kind,
    drop: ids(drop),
    voided: ids(loss.voided),
    mustLost: loss.mustLost,
    worthLost: loss.worthLost,
    least: change ? false : (dropped?.least ?? true),
    breaks,
    add: ids(change?.add ?? []),
    moves: movesOf(schedule, change?.schedule ?? left),
    then,
  } as const;
  const result = (one: Schedule | null) => one && played.outcome(remainder, lengthS, one);
  const { name } = plan.tasks[remainder.present]!;
  return {
    ...cell,
    result: result(change?.schedule ?? left),
    alone:
      change && dropped
        ? { mustLost: dropped.mustLost, worthLost: dropped.worthLost, result: result(left)! }
        : null,
    sentence: `If ${minutes} min late leaving ${name}: ${sentenceOf(problem, cell)}`,
  };
}

/** What is done, in one word, when `drop` of what is still `ahead` is left out. */
function kindOf(
  ahead: readonly number[],
  drop: readonly number[],
  done: Dropped | Change | null,
  change: Change | null,
): LateEntry["kind"] {
  if (!done) return "over";
  if (change) return "change";
  if (drop.length === 0) return "keep";
  return ahead.length > 0 && ahead.every((a) => drop.includes(a)) ? "end" : "drop";
}

function sentenceOf(
  { plan }: Problem,
  { kind, drop, add, then, breaks }: Pick<LateEntry, "kind" | "drop" | "add" | "then" | "breaks">,
): string {
  const names = (list: readonly string[]): string =>
    listed(list.map((id) => plan.tasks.find((task) => task.id === id)!.name));
  const restSoon =
    breaks.length > 0 && kind !== "over" ? " Rest at the next stop: the stretch of work is too long." : "";
  switch (kind) {
    case "keep":
      return `drop nothing.${restSoon}`;
    case "drop":
      return `drop ${names(drop)}.${restSoon}`;
    case "end":
      return `end the EVA.${restSoon}`;
    case "over":
      return `end the EVA at once; even so there is trouble with ${listed(breaks.map(ruleInWords))}${untriedWords(breaks)}.`;
    case "change": {
      const parts = [
        ...(drop.length > 0 ? [`drop ${names(drop)}`] : []),
        ...(add.length > 0 ? [`take up ${names(add)}`] : []),
      ];
      const orders = then.map(({ crew, tasks }) => {
        const who = plan.crew.find((one) => one.id === crew)!.name;
        return `${who} ${tasks.length === 0 ? "goes home" : `does ${names(tasks)}, in this order`}`;
      });
      return `${[...parts, ...orders].join("; ")}.${restSoon}`;
    }
  }
}

/** What stands otherwise than planned, or was not planned at all. */
function movesOf({ placements }: Schedule, after: Schedule | null): Placement[] {
  const planned = new Map(placements.map((one) => [one.task, one]));
  return (after?.placements ?? []).filter((one) => {
    const was = planned.get(one.task);
    return !was || one.startS !== was.startS || one.eva !== was.eva || !sameCrew(one, was);
  });
}

function sameCrew(one: Placement, other: Placement): boolean {
  return one.crew.length === other.crew.length && one.crew.every((id) => other.crew.includes(id));
}

/** By crew member whose tasks from now on are not just the planned ones in their order, what they do. */
function thenOf(
  { plan }: Problem,
  remainder: Remainder,
  before: Schedule,
  after: Schedule,
): LateEntry["then"] {
  const there = new Set(after.placements.map(({ task }) => task));
  const past = new Set(plan.tasks.filter((_, a) => remainder.past[a] === 1).map(({ id }) => id));
  const eva = before.placements.find(({ task }) => task === plan.tasks[remainder.present]!.id)!.eva;
  const ahead = ({ placements }: Schedule, member: string): string[] =>
    placements
      .filter(
        (one) => one.eva === eva && one.crew.includes(member) && !past.has(one.task) && there.has(one.task),
      )
      .sort((x, y) => x.startS - y.startS)
      .map(({ task }) => task);
  return plan.crew.flatMap(({ id }) => {
    const tasks = ahead(after, id);
    return isEqual(tasks, ahead(before, id)) ? [] : [{ crew: id, tasks }];
  });
}
