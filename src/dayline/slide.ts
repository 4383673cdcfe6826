import { instant } from "../kernel/index.ts";
import type { Placement, Plan, Schedule } from "../plan/index.ts";

/** What others do when something is moved among them. */
export type Manner = "stay" | "slide";

export const MANNER_WORDS: Readonly<Record<Manner, string>> = {
  stay: "Others stay",
  slide: "Others slide",
};

/** Seconds to walk from one place to another; null where there is no way. */
export type WalkS = (from: string, to: string) => number | null;

/** Where a crew member is done last and whether that pushes what comes next. */
interface Last {
  readonly eva: string | null;
  readonly endS: number;
  readonly place: string | undefined;
  readonly held: boolean;
  readonly pushes: boolean;
}

/**
 * The schedule in which the held tasks push what follows them: on each crew member's line, inside the EVA, a task
 * that would begin before the one ahead is done and the way is walked begins as soon as it is. The push goes on from
 * task to task, over all who share one, until there is slack enough. The order is kept; nothing is moved earlier; a
 * pinned start is not moved (the judge then says what is wrong with it); what the held tasks do not reach stays.
 *
 * A held task that was put down on the second half of another comes after it. Gives `schedule` when nothing slides.
 */
export function slid(plan: Plan, schedule: Schedule, held: readonly string[], walkS: WalkS): Schedule {
  const going = new Set(held);
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
  const lengthOf = (one: Placement): number => tasks.get(one.task)?.duration.likelyS ?? 0;
  const turnOf = (one: Placement): number => one.startS + (going.has(one.task) ? 0 : lengthOf(one) / 2);
  const inTurn = schedule.placements
    .filter((one) => one.crew.length > 0)
    .toSorted((a, b) => turnOf(a) - turnOf(b) || a.startS - b.startS || (a.task < b.task ? -1 : 1));

  const last = new Map<string, Last>();
  const pushed = new Map<string, number>();
  for (const one of inTurn) {
    const task = tasks.get(one.task);
    if (!task) continue;
    const isHeld = going.has(one.task);
    let earliestS: number = one.startS;
    for (const member of one.crew) {
      const ahead = last.get(member);
      if (!ahead || ahead.eva !== one.eva) continue;
      // Held tasks keep their distance among themselves; others move only for what is held or was moved.
      if (isHeld ? ahead.held : !ahead.pushes) continue;
      earliestS = Math.max(earliestS, ahead.endS + wayS(walkS, ahead.place, task.place));
    }
    const moves = earliestS > one.startS && task.pin?.startS === undefined;
    const startS = moves ? earliestS : one.startS;
    if (moves) pushed.set(one.task, startS);
    const done: Last = {
      eva: one.eva,
      endS: startS + lengthOf(one),
      place: task.endPlace ?? task.place,
      held: isHeld,
      pushes: isHeld || moves,
    };
    for (const member of one.crew) last.set(member, done);
  }
  if (pushed.size === 0) return schedule;
  return {
    placements: schedule.placements.map((one) => {
      const startS = pushed.get(one.task);
      return startS === undefined ? one : { ...one, startS: instant(startS) };
    }),
  };
}

/** The tasks besides the held ones that begin later in `after` than in `before`, with by how much, seconds. */
export function slidBy(
  before: Schedule,
  after: Schedule,
  held: readonly string[],
): ReadonlyMap<string, number> {
  if (before === after) return new Map();
  const was = new Map(before.placements.map((one) => [one.task, one.startS as number]));
  const moved = new Map<string, number>();
  for (const one of after.placements) {
    const startS = was.get(one.task);
    if (startS !== undefined && one.startS !== startS && !held.includes(one.task)) {
      moved.set(one.task, one.startS - startS);
    }
  }
  return moved;
}

function wayS(walkS: WalkS, from: string | undefined, to: string | undefined): number {
  return from === undefined || to === undefined || from === to ? 0 : (walkS(from, to) ?? 0);
}
