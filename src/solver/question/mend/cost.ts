import { changesBetween, type Plan, type Schedule } from "../../../plan/index.ts";
import { tollIn } from "../../problem/groups.ts";

/**
 * What a repair costs, compared in this order, less is better: tasks dropped that were to be kept; must-do tasks dropped; worth
 * dropped; tasks dropped; tasks that are changed in any way (dropped, put on, other people, another EVA, another start); seconds moved.
 */
export interface Cost {
  readonly keptDropped: number;
  readonly mustDropped: number;
  readonly worthDropped: number;
  /** All that are dropped: what is worth nothing is not dropped rather than moved. */
  readonly dropped: number;
  readonly changed: number;
  readonly seconds: number;
}

const ORDER = ["keptDropped", "mustDropped", "worthDropped", "dropped", "changed", "seconds"] as const;

/** The cost of `after` against `before`; `keep` are the tasks to be kept. */
export function costOf(plan: Plan, before: Schedule, after: Schedule, keep: readonly string[]): Cost {
  const kept = new Set(keep);
  const dropped: string[] = [];
  const cost = { keptDropped: 0, dropped: 0, changed: 0, seconds: 0 };
  for (const { task, kind, byS } of changesBetween(plan, before, after)) {
    cost.changed += 1;
    cost.seconds += Math.abs(byS);
    if (kind !== "dropped") continue;
    cost.dropped += 1;
    cost.keptDropped += kept.has(task.id) ? 1 : 0;
    dropped.push(task.id);
  }
  const { mustLost, worthLost } = tollIn(plan, before, dropped);
  return { ...cost, mustDropped: mustLost, worthDropped: worthLost };
}

/** True when `a` is less than `b`. */
export function less(a: Cost, b: Cost): boolean {
  const key = ORDER.find((one) => a[one] !== b[one]);
  return key !== undefined && a[key] < b[key];
}

/** True when nothing that was placed is dropped. */
export function losesNothing(cost: Cost): boolean {
  return cost.dropped === 0;
}
