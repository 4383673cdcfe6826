import type { Group, Plan, Schedule, Task } from "../plan/index.ts";
import { placementsOf } from "./placements.ts";
import { prepare } from "./prepared.ts";
import type { Walkthrough } from "./walkthrough.ts";

/** A group with those of its tasks that are placed. */
export interface PlacedGroup {
  readonly group: Group;
  readonly placed: readonly Task[];
}

/** A placed task with what it counts, points: so many % of its worth, rounded down (S17). */
export interface CountedWorth {
  readonly task: Task;
  readonly share: number;
  readonly counts: number;
}

type Placed = Pick<Walkthrough, "prepared" | "placed" | "byTask">;

/** Every group, in the plan's order. */
export function groupsOf({ prepared, byTask }: Placed): PlacedGroup[] {
  return prepared.plan.groups.map((group) => ({
    group,
    placed: group.tasks.flatMap((id) => byTask.get(id)?.task ?? []),
  }));
}

/** How many are missing from what the group must have at least. */
export function missingOf({ group, placed }: PlacedGroup): number {
  return Math.max(0, group.least - placed.length);
}

/** What every placed task counts, in the order of start. */
export function worthsOf(walkthrough: Placed): CountedWorth[] {
  const shares = new Map(groupsOf(walkthrough).flatMap(sharesOf));
  return walkthrough.placed.map(({ task }) => {
    const share = shares.get(task.id) ?? 100;
    return { task, share, counts: Math.floor((task.worth * share) / 100) };
  });
}

/** What every task that `schedule` places counts. */
export function countedWorths(plan: Plan, schedule: Schedule): CountedWorth[] {
  const prepared = prepare(plan);
  return worthsOf({ prepared, ...placementsOf(prepared, schedule) });
}

/** The share of each placed task of a group with shares, the most worth first. */
function sharesOf({ group: { shares }, placed }: PlacedGroup): [task: string, share: number][] {
  if (shares.length === 0) return [];
  return placed
    .toSorted((a, b) => b.worth - a.worth)
    .map(({ id }, k) => [id, shares[Math.min(k, shares.length - 1)]!]);
}
