import type { Plan, Schedule } from "../../plan/index.ts";
import { type Groups, NEVER, type Problem } from "./problem.ts";

/** The groups of `plan`; null where none asks for anything, and nothing has to be looked at. */
export function groupsOf({ groups, tasks }: Plan): Groups | null {
  const isBinding = groups.some(
    (group) =>
      group.least > 0 ||
      (group.most ?? NEVER) < group.tasks.length ||
      (group.tasks.length > 0 && group.shares.some((share) => share < 100)),
  );
  if (!isBinding) return null;
  const index = new Map(tasks.map((task, a) => [task.id, a]));
  const members = groups.map((group) =>
    Int32Array.from(group.tasks, (id) => index.get(id)!).sort(
      (a, b) => tasks[b]!.worth - tasks[a]!.worth || a - b,
    ),
  );
  const of: number[][] = tasks.map(() => []);
  members.forEach((list, g) => {
    for (const a of list) of[a]!.push(g);
  });
  return {
    least: Int32Array.from(groups, ({ least }) => least),
    most: Int32Array.from(groups, ({ most }) => most ?? NEVER),
    members,
    shares: groups.map(({ shares }) => shares),
    of,
  };
}

/** What worth and what must be done depends on. */
type Valued = Pick<Problem, "worth" | "must" | "groups">;

/** How much less than whole the worth of the members of group `g` counts of which `there` says that they are done, points (S17). */
export function lessIn(
  { worth }: Pick<Problem, "worth">,
  { members, shares }: Groups,
  g: number,
  there: (a: number) => boolean,
): number {
  const of = shares[g]!;
  if (of.length === 0) return 0;
  let less = 0;
  let done = 0;
  for (const a of members[g]!) {
    if (!there(a)) continue;
    const share = of[Math.min(done, of.length - 1)]!;
    less += worth[a]! - Math.floor((worth[a]! * share) / 100);
    done += 1;
  }
  return less;
}

/** The same over all groups. */
export function lessOver(problem: Valued, there: (a: number) => boolean): number {
  const { groups } = problem;
  if (!groups) return 0;
  return groups.members.reduce((sum, _, g) => sum + lessIn(problem, groups, g, there), 0);
}

/** What counts more of what is `there` once `a`, which is not, is there too: its worth, or what its groups' shares leave of that (S17). */
export function addedBy(problem: Valued, there: (a: number) => boolean, a: number): number {
  const { groups, worth } = problem;
  const lessMore = (groups?.of[a] ?? []).reduce(
    (sum, g) =>
      sum + lessIn(problem, groups!, g, (b) => b === a || there(b)) - lessIn(problem, groups!, g, there),
    0,
  );
  return worth[a]! - lessMore;
}

/** How many members are missing over all groups of what is least wanted of each. */
export function missingOver({ groups }: Valued, there: (a: number) => boolean): number {
  if (!groups) return 0;
  return groups.members.reduce(
    (sum, list, g) => sum + Math.max(0, groups.least[g]! - list.filter(there).length),
    0,
  );
}

/** The same problem with nothing asked of groups but that none has too many: for a search that wants tasks, not worth. */
export function onlyMost(groups: Groups | null): Groups | null {
  return groups && { ...groups, least: groups.least.map(() => 0), shares: groups.shares.map(() => []) };
}

/** What goes with the activities `lost` of those that are there: must-do ones, what groups then lack of their least, and worth as it counted. */
export function tollOf(
  problem: Valued,
  there: (a: number) => boolean,
  lost: readonly number[],
): { readonly mustLost: number; readonly worthLost: number } {
  const { must, worth, groups } = problem;
  const whole = {
    mustLost: lost.filter((a) => must[a] === 1).length,
    worthLost: lost.reduce((sum, a) => sum + worth[a]!, 0),
  };
  if (!groups) return whole;
  const left = (a: number): boolean => there(a) && !lost.includes(a);
  return {
    mustLost: whole.mustLost + missingOver(problem, left) - missingOver(problem, there),
    worthLost: whole.worthLost + lessOver(problem, left) - lessOver(problem, there),
  };
}

/** The same of the tasks `lost` of a schedule. */
export function tollIn(
  plan: Plan,
  { placements }: Schedule,
  lost: readonly string[],
): ReturnType<typeof tollOf> {
  const placed = new Set(placements.map(({ task }) => task));
  const valued = {
    worth: Float64Array.from(plan.tasks, ({ worth }) => worth),
    must: Uint8Array.from(plan.tasks, ({ must }) => (must ? 1 : 0)),
    groups: groupsOf(plan),
  };
  return tollOf(
    valued,
    (a) => placed.has(plan.tasks[a]!.id),
    plan.tasks.flatMap(({ id }, a) => (lost.includes(id) ? [a] : [])),
  );
}
