import { duration } from "../kernel/index.ts";
import type { Task } from "../plan/index.ts";

/** An end of a task on the line. */
export type Edge = "start" | "end";

/** A task's span while one of its ends is in hand; seconds. */
export interface Stretched {
  readonly startS: number;
  readonly lengthS: number;
}

/** The shortest a task is drawn to by hand, seconds. */
const LEAST_LENGTH_S = 60;

/** The span with `edge` at `atS` and the other end where it is, never shorter than a minute. Whole seconds. */
export function stretched(
  span: { readonly startS: number; readonly endS: number },
  edge: Edge,
  atS: number,
): Stretched {
  const at = Math.round(atS);
  if (edge === "end") {
    return { startS: span.startS, lengthS: Math.max(LEAST_LENGTH_S, at - span.startS) };
  }
  const startS = Math.min(at, span.endS - LEAST_LENGTH_S);
  return { startS, lengthS: span.endS - startS };
}

/** `task` with this most likely duration; a short or long case that it passes goes along, so that they stay in order. */
export function withLength(task: Task, lengthS: number): Task {
  const likelyS = duration(lengthS);
  if (task.duration.likelyS === likelyS) return task;
  const { lowS, highS } = task.duration;
  return {
    ...task,
    duration: {
      likelyS,
      ...(lowS === undefined ? {} : { lowS: lowS > likelyS ? likelyS : lowS }),
      ...(highS === undefined ? {} : { highS: highS < likelyS ? likelyS : highS }),
    },
  };
}

/** The end of a slab under `x`: near its left or right side, and only where both ends and a middle can be told apart. */
export function edgeUnder(
  slab: { readonly left: number; readonly right: number },
  x: number,
  edgePx: number,
): Edge | null {
  if (slab.right - slab.left < 3 * edgePx) return null;
  if (Math.abs(x - slab.right) <= edgePx) return "end";
  return Math.abs(x - slab.left) <= edgePx ? "start" : null;
}
