import type { Plan } from "../plan/index.ts";

/** What the tasks of which `there` says so count together: each its worth, of a group with shares what these leave of it (RULES S17). */
export function countedWorth({ tasks, groups }: Plan, there: (task: string) => boolean): number {
  const worth = new Map(tasks.map((task) => [task.id, task.worth]));
  const sharing = groups.filter(({ shares }) => shares.length > 0);
  const shared = new Set(sharing.flatMap((group) => group.tasks));
  const alone = tasks.filter(({ id }) => there(id) && !shared.has(id)).map((task) => task.worth);
  const together = sharing.flatMap((group) =>
    group.tasks
      .filter(there)
      .map((id) => worth.get(id) ?? 0)
      .toSorted((a, b) => b - a)
      .map((one, k) => Math.floor((one * group.shares[Math.min(k, group.shares.length - 1)]!) / 100)),
  );
  return [...alone, ...together].reduce((sum, one) => sum + one, 0);
}

/** Of how much must be done so much is: must-do tasks, and what groups want at least. */
export function countedMust({ tasks, groups }: Plan, there: (task: string) => boolean) {
  const must = tasks.filter((task) => task.must);
  const least = groups.reduce((sum, group) => sum + group.least, 0);
  const met = groups.reduce((sum, group) => sum + Math.min(group.least, group.tasks.filter(there).length), 0);
  return { of: must.length + least, done: must.filter(({ id }) => there(id)).length + met };
}
