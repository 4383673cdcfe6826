import type { TriedRelaxation } from "../../../answers/index.ts";
import {
  changesBetween,
  editBetween,
  type Plan,
  type Schedule,
  type TaskChange,
} from "../../../plan/index.ts";
import { crewName, lasting, listed, met, scheduleChanges } from "../../../words/index.ts";

/** Up to this many tasks are named in the sentence; all of them are in `moves`. */
const MOST_NAMED = 3;

/** Nothing given up: `made` has all of `before` and the tasks `extra`, and others start at other times or are done by others. */
export function rearranged(
  plan: Plan,
  before: Schedule,
  made: Schedule,
  extra: readonly string[],
): TriedRelaxation {
  const changes = changesBetween(plan, before, made);
  const sentence = `Nothing has to be given up: ${sentenceOf(plan, changes, extra)}.`;
  return {
    kind: "rearrange",
    subject: null,
    steps: 0,
    sentence,
    owner: null,
    edit: editBetween(sentence, plan, plan),
    schedule: made,
    dropped: [],
    moves: scheduleChanges(plan, before, made).flatMap((one) => (one.kind === "moved" ? [one.sentence] : [])),
    cost: { mustLost: 0, worthLost: 0, size: 0 },
  };
}

function sentenceOf(plan: Plan, changes: readonly TaskChange[], extra: readonly string[]): string {
  const it = extra.length === 0 ? "no rule is broken" : "it fits";
  const moved = changes.filter((one) => one.kind === "moved");
  if (moved.length === 0) return `${it} with every other start as it is${where(plan, changes, extra)}`;
  if (moved.some((one) => one.otherEva || one.otherCrew))
    return `${it} if ${moved.length === 1 ? `${moved[0]!.task.name} moves` : `${moved.length} placed tasks move`}`;
  if (moved.length <= MOST_NAMED)
    return `${it} if ${listed(moved.map(({ task, byS }) => `${task.name} starts ${shift(byS)}`))}`;
  const mostS = Math.max(...moved.map((one) => Math.abs(one.byS)));
  const ways = [
    ...(moved.some((one) => one.byS > 0) ? ["later"] : []),
    ...(moved.some((one) => one.byS < 0) ? ["earlier"] : []),
  ];
  return `${it} if ${moved.length} placed tasks start ${ways.join(" or ")}, by at most ${lasting(mostS, "up")}`;
}

function shift(byS: number): string {
  return `${lasting(Math.abs(byS), "up")} ${byS > 0 ? "later" : "earlier"}`;
}

function where(plan: Plan, changes: readonly TaskChange[], extra: readonly string[]): string {
  const [only] = changes;
  if (extra.length !== 1 || !only?.after) return "";
  const { eva, crew, startS } = only.after;
  const on = plan.evas.find((one) => one.id === eva)?.name;
  const by = listed(crew.map((id) => crewName(plan, id)));
  return `, at ${met(startS)}${on === undefined ? "" : ` on ${on}`}${by === "" ? "" : ` with ${by}`}`;
}
