import type { Gridded } from "../answers/index.ts";
import { gridTo, instant } from "../kernel/index.ts";
import type { Placement, Plan, Schedule } from "../plan/index.ts";
import { gridName, lasting, listed } from "../words/index.ts";
import { flown, withStartsOf } from "./problem/known.ts";
import { Day } from "./network/day.ts";
import { insertAll, scheduleOf } from "./network/placing.ts";
import type { Problem } from "./problem/problem.ts";
import { type PlacedActivity, readSound } from "./network/verify.ts";

/** The judge's word: what a schedule breaks, by a name for each breach, and by how much. */
export type BreachesOf = (schedule: Schedule) => ReadonlyMap<string, number>;

/**
 * `schedule` with its starts on the plan's grid: the same tasks in the same order by the same crew, so that what it says can be printed
 * as it is. A start on the grid stays unless something before it pushes it, a pinned one always; what keeps every rule, rests among
 * them, keeps every rule.
 *
 * In a sound schedule each start may go back to the last step of the grid before it and then no further than the others and the
 * rules push it; what holds at its own start only is left there, found by halves. In a broken one, of which `breachesOf` says what
 * and by how much, each start by itself goes to a step of the grid beside it that breaks nothing more, and nothing by more.
 */
export function gridded(plan: Plan, schedule: Schedule, breachesOf: BreachesOf): Gridded {
  const gridS = plan.rules.startGridS;
  const pinned = new Set(plan.tasks.filter((task) => task.pin?.startS !== undefined).map(({ id }) => id));
  const off = schedule.placements.filter((one) => one.startS % gridS !== 0 && !pinned.has(one.task));
  const made =
    off.length === 0
      ? schedule
      : (slidOnto(plan, schedule, off) ?? movedOnto(schedule, off, gridS, breachesOf));
  const now = new Map(made.placements.map((one) => [one.task, one.startS]));
  const was = new Map(schedule.placements.map((one) => [one.task, one.startS]));
  const moved = plan.tasks.flatMap(({ id }) => {
    const byS = now.has(id) && was.has(id) ? now.get(id)! - was.get(id)! : 0;
    return byS === 0 ? [] : [{ task: id, byS }];
  });
  const left = plan.tasks.flatMap(({ id }): Gridded["left"] =>
    (now.get(id) ?? 0) % gridS === 0 ? [] : [{ task: id, why: pinned.has(id) ? "pinned" : "no room" }],
  );
  return { schedule: made, moved, left, sentence: sentenceOf(plan, moved, left) };
}

function sentenceOf(plan: Plan, moved: Gridded["moved"], left: Gridded["left"]): string {
  const { startGridS } = plan.rules;
  const grid = gridName(startGridS);
  const count = `${moved.length} ${moved.length === 1 ? "start" : "starts"}`;
  const most = moved.reduce((far, { byS }) => Math.max(far, Math.abs(byS)), 0);
  const by = lasting(most, "up");
  const parts = [
    moved.length === 0 ? "" : `${count} moved to ${grid}, by ${by} at most.`,
    notMoved("pinned there", "pinned"),
    notMoved("with no such start beside it that breaks nothing more", "no room"),
  ].filter((part) => part !== "");
  return parts.length === 0 ? `Every start is on ${grid}.` : parts.join(" ");

  function notMoved(because: string, why: Gridded["left"][number]["why"]): string {
    const names = left
      .filter((one) => one.why === why)
      .map(({ task }) => plan.tasks.find(({ id }) => id === task)!.name);
    return names.length === 0 ? "" : `Not on ${grid}, ${because}: ${listed(names)}.`;
  }
}

/** All of `off` onto the grid together, or as many as go; null where the schedule is not sound as it stands. */
function slidOnto(plan: Plan, schedule: Schedule, off: readonly Placement[]): Schedule | null {
  const problem = flown(plan, schedule);
  const placings = readSound(problem, schedule);
  if (!placings) return null;
  let staying: readonly Placement[] = off;
  let made: Schedule | null = null;
  const release = (list: readonly Placement[]): void => {
    const fewer = staying.filter((one) => !list.includes(one));
    const there = laid(problem, schedule, placings, fewer);
    if (there) {
      staying = fewer;
      made = there;
    } else if (list.length > 1) {
      const half = Math.ceil(list.length / 2);
      release(list.slice(0, half));
      release(list.slice(half));
    }
  };
  release(off);
  return made ?? schedule;
}

/** The schedule in its order with all starts but those of `staying` on the grid, none earlier than by a step; null when that does not hold. */
function laid(
  bare: Problem,
  schedule: Schedule,
  placings: readonly PlacedActivity[],
  staying: readonly Placement[],
): Schedule | null {
  const problem = withStartsOf(bare, { placements: [...staying] });
  const day = new Day(problem);
  const order = [...placings].sort(
    (x, y) =>
      x.startS - y.startS ||
      problem.lengthS[x.activity]! - problem.lengthS[y.activity]! ||
      x.activity - y.activity,
  );
  if (!insertAll(day, order)) return null;
  const stays = new Set(staying.map((one) => one.task));
  for (const { activity, startS } of placings) {
    const { id, pin } = problem.plan.tasks[activity]!;
    const isFixed = stays.has(id) || pin?.startS !== undefined;
    day.board.floorS[activity] = isFixed ? startS : gridTo(startS, problem.gridS);
  }
  if (!day.settle()) return null;
  const startOf = new Map(scheduleOf(day.board).placements.map((one) => [one.task, one.startS]));
  const made = {
    placements: schedule.placements.map((one) => ({ ...one, startS: startOf.get(one.task)! })),
  };
  return readSound(problem, made) ? made : null;
}

/**
 * Each of `off` by itself to a step of the grid beside it with which nothing is broken that was not, and nothing by more than it was: the
 * one with which least is broken, of equals the nearer one.
 */
function movedOnto(
  schedule: Schedule,
  off: readonly Placement[],
  gridS: number,
  breachesOf: BreachesOf,
): Schedule {
  const broken = breachesOf(schedule);
  let now = schedule;
  for (const placement of off.toSorted((a, b) => a.startS - b.startS)) {
    const { placements } = now;
    const beforeS = gridTo(placement.startS, gridS);
    const tried = [beforeS, beforeS + gridS].flatMap((startS) => {
      const there = { ...placement, startS: instant(startS) };
      const schedule = { placements: placements.map((one) => (one === placement ? there : one)) };
      const breaches = breachesOf(schedule);
      const worse = [...breaches].some(([key, by]) => by > (broken.get(key) ?? -1));
      return worse ? [] : [{ schedule, count: breaches.size, awayS: Math.abs(startS - placement.startS) }];
    });
    tried.sort((a, b) => a.count - b.count || a.awayS - b.awayS);
    now = tried[0]?.schedule ?? now;
  }
  return now;
}
