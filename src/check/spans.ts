import { contains, type Interval } from "../kernel/index.ts";

/** Seconds by which `span` sticks out of `outer` at both ends together; 0 when inside. */
export function outsideOf(outer: Interval, span: Interval): number {
  return Math.max(0, outer.startS - span.startS) + Math.max(0, span.endS - outer.endS);
}

/** The one of `list` that `span` sticks out of least, the earliest of equals; undefined when there is none. */
export function nearestOf(list: readonly Interval[], span: Interval): Interval | undefined {
  let best: Interval | undefined;
  for (const next of list) {
    if (!best) best = next;
    else {
      const by = outsideOf(next, span) - outsideOf(best, span);
      if (by < 0 || (by === 0 && next.startS < best.startS)) best = next;
    }
  }
  return best;
}

/** Seconds that `span` may slip later inside one of `list`; -1 when it lies inside none of them. */
export function slipS(list: readonly Interval[], span: Interval): number {
  let most = -1;
  for (const outer of list) if (contains(outer, span)) most = Math.max(most, outer.endS - span.endS);
  return most;
}
