import { instant } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { REMOTE } from "./lanes.ts";
import { proposed, type Target } from "./propose.ts";

/** The tasks a gesture holds and how they were taken. */
export interface Held {
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
 * The schedule in which all held tasks have gone the way of the anchor: by the same time, and those of the lane it
 * was taken by to the anchor's new lane. A held task that is not on the line stays on the bench, unless it is the
 * anchor. As `proposed`, it checks nothing and gives `start` itself when nothing changes.
 */
export function movedTogether(plan: Plan, start: Schedule, held: Held, target: Target): Schedule {
  if (target.at === "bench") {
    const left = start.placements.filter((one) => !held.tasks.includes(one.task));
    return left.length === start.placements.length ? start : { placements: left };
  }
  if (target.at === "place") return start;
  const anchor = start.placements.find((one) => one.task === held.anchor);
  if (!anchor || held.tasks.length === 1) return proposed(plan, start, held.anchor, held.fromLane, target);
  const byS = Math.round(target.startS) - anchor.startS;
  const across = held.eva === null && target.lane !== REMOTE && target.lane !== held.fromLane;
  if (byS === 0 && !across) return start;
  if (held.eva !== null) {
    const going = new Set(held.tasks);
    return {
      placements: start.placements.map((one) =>
        going.has(one.task) ? { ...one, startS: instant(one.startS + byS) } : one,
      ),
    };
  }
  return held.tasks.reduce((schedule, task) => {
    const before = start.placements.find((one) => one.task === task);
    if (!before) return schedule;
    const own = before.crew[0] ?? REMOTE;
    const from = held.fromLane !== null && before.crew.includes(held.fromLane) ? held.fromLane : own;
    const lane = across && from === held.fromLane && before.crew.length > 0 ? target.lane : from;
    return proposed(plan, schedule, task, from, { at: "line", lane, startS: before.startS + byS });
  }, start);
}
