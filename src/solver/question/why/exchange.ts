import type { TriedRelaxation } from "../../../answers/index.ts";
import { editBetween, type Plan, type Schedule } from "../../../plan/index.ts";
import { listed } from "../../../words/index.ts";
import { Anneal } from "../../search/anneal.ts";
import { compiled } from "../../problem/known.ts";
import { tollIn } from "../../problem/groups.ts";
import { scheduleOf } from "../../network/placing.ts";
import { restricted } from "../../problem/restricted.ts";
import type { Effort } from "./solve.ts";

/** The search for an exchange goes on for so many times the iterations of one solve, and longer where it has found none. */
const LONGER = 8;
const LONGEST = 24;

/**
 * The wanted tasks on the day for the least worth that a short search finds to drop for them, several tasks where one is not
 * enough; null when it finds none, or only at the price of a must-do task where nothing wanted is one. Not proved to be the least.
 */
export function* exchange(
  plan: Plan,
  schedule: Schedule,
  extra: readonly string[],
  effort: Effort,
): Generator<void, TriedRelaxation | null> {
  const problem = compiled(plan, schedule);
  yield;
  const wanted = new Set([...schedule.placements.map((one) => one.task), ...extra]);
  const added = new Set(extra);
  const search = new Anneal(
    {
      ...restricted(problem, wanted),
      must: Uint8Array.from(plan.tasks, (task) => (added.has(task.id) || task.must ? 1 : 0)),
    },
    effort.seed,
    schedule,
  );
  const most = LONGER * effort.iterations;
  const last = LONGEST * effort.iterations;
  for (let k = 0; k < most || (search.bestValue.mustOut > 0 && k < last); k += 1) {
    yield;
    search.iterate(Math.min(1, k / most));
  }
  const made = scheduleOf(search.best);
  const there = new Set(made.placements.map((one) => one.task));
  if (extra.some((id) => !there.has(id))) return null;
  const lost = plan.tasks.filter((task) => wanted.has(task.id) && !there.has(task.id));
  const dropped = lost.map((task) => task.id);
  const { mustLost, worthLost } = tollIn(plan, schedule, dropped);
  const forMust = extra.length === 0 || plan.tasks.some((task) => added.has(task.id) && task.must);
  if (lost.length === 0 || (mustLost > 0 && !forMust)) return null;
  const names = listed(lost.map((task) => task.name));
  const sentence = `${names} ${lost.length === 1 ? "goes" : "go"} to the bench: worth ${worthLost} lost.`;
  return {
    kind: "exchange",
    subject: null,
    steps: lost.length,
    sentence,
    owner: null,
    edit: editBetween(sentence, plan, plan),
    schedule: made,
    dropped,
    moves: [],
    cost: { mustLost, worthLost, size: lost.length },
  };
}
