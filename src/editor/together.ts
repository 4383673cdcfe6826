import { instant } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { REMOTE } from "./lanes.ts";
import { proposed, type Target } from "./propose.ts";

/** The tasks a gesture holds and how they were taken. */
export interface Movers {
  /** The one under the pointer; the target is where this one goes. */
  readonly anchor: string;
  /** All that go along, the anchor among them. */
  readonly tasks: readonly string[];
  /** The lane the anchor was taken by; null from the bench. */
  readonly fromLane: string | null;
  /** Set when a whole EVA was taken by its bar: its tasks keep EVA and crew. */
  readonly eva: string | null;
}

/**
 * The schedule in which all tasks in hand have gone the way of the anchor: by the same time, and those of the lane it
 * was taken by to the anchor's new lane. A task in hand that is not on the line stays on the bench, unless it is the
 * anchor. As `proposed`, it checks nothing and gives `start` itself when nothing changes.
 */
export function movedTogether(plan: Plan, start: Schedule, movers: Movers, target: Target): Schedule {
  if (target.at === "bench") {
    const left = start.placements.filter((one) => !movers.tasks.includes(one.task));
    return left.length === start.placements.length ? start : { placements: left };
  }
  if (target.at === "place") return start;
  const anchor = start.placements.find((one) => one.task === movers.anchor);
  if (!anchor || movers.tasks.length === 1)
    return proposed(plan, start, movers.anchor, movers.fromLane, target);
  const byS = Math.round(target.startS) - anchor.startS;
  const across = movers.eva === null && target.lane !== REMOTE && target.lane !== movers.fromLane;
  if (byS === 0 && !across) return start;
  if (movers.eva !== null) {
    const going = new Set(movers.tasks);
    return {
      placements: start.placements.map((one) =>
        going.has(one.task) ? { ...one, startS: instant(one.startS + byS) } : one,
      ),
    };
  }
  return movers.tasks.reduce((schedule, task) => {
    const before = start.placements.find((one) => one.task === task);
    if (!before) return schedule;
    const own = before.crew[0] ?? REMOTE;
    const from = movers.fromLane !== null && before.crew.includes(movers.fromLane) ? movers.fromLane : own;
    const lane = across && from === movers.fromLane && before.crew.length > 0 ? target.lane : from;
    return proposed(plan, schedule, task, from, { at: "line", lane, startS: before.startS + byS });
  }, start);
}
