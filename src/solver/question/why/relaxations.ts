import { type Plan, type Schedule, suitsOf } from "../../../plan/index.ts";
import { tollIn } from "../../problem/groups.ts";
import type { Problem } from "../../problem/problem.ts";
import { byEase, type Cause, consumableOf, keyOf } from "./cause.ts";
import type { Relaxation } from "./relaxation.ts";
import { outingRelaxations, reserveRelaxation } from "./outingrelaxations.ts";
import {
  containerRelaxations,
  crewRelaxations,
  equipmentRelaxation,
  groupRelaxation,
  lightRelaxation,
  linkRelaxations,
  petRelaxations,
  relayRelaxations,
  sunRelaxations,
  windowRelaxations,
} from "./requestrelaxations.ts";

/**
 * What could be given up, the most hopeful first: what is in the conflict, then the bounds of all EVAs and all other placed tasks,
 * which can make room when the rest is rearranged. Safety rules are not among them.
 */
export function relaxationsOf(
  problem: Problem,
  schedule: Schedule,
  group: readonly number[],
  conflict: readonly Cause[],
): Relaxation[] {
  const { plan } = problem;
  const inConflict = conflict.flatMap((cause) => relaxationsFor(plan, cause, group));
  const placed = schedule.placements.map((one) => plan.tasks.findIndex((task) => task.id === one.task));
  const conflicting = new Set(conflict.map(keyOf));
  // A must-do task is dropped for another must-do task only.
  const forMust = group.length === 0 || group.some((a) => plan.tasks[a]!.must);
  const isMust = (id: string): boolean => plan.tasks.some((task) => task.id === id && task.must);
  const drops = byEase(plan, placed)
    .flatMap((a) => dropRelaxation(problem, schedule, group, a))
    .filter((relaxation) => forMust || !relaxation.drops.some(isMust));
  const isIn = (relaxation: Relaxation): boolean => {
    const a = plan.tasks.findIndex((task) => task.id === relaxation.subject);
    return conflicting.has(keyOf({ kind: "placement", about: a }));
  };
  const list = [
    ...inConflict,
    ...sharedReserves(plan, conflict),
    ...drops.filter(isIn),
    ...plan.evas.flatMap(outingRelaxations),
    ...drops.filter((one) => !isIn(one)),
  ];
  const seen = new Set<string>();
  return list.filter((relaxation) => {
    const key = `${relaxation.kind} ${relaxation.subject} ${relaxation.say(1)}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** The same reserve of all suits that the conflict names together, as suits are often alike. */
function sharedReserves(plan: Plan, conflict: readonly Cause[]): Relaxation[] {
  const suits = new Map<ReturnType<typeof consumableOf>["kind"], Set<string>>();
  for (const { kind, about } of conflict) {
    if (kind !== "consumable") continue;
    const { member, kind: consumable } = consumableOf(about);
    const list = suits.get(consumable) ?? new Set<string>();
    suits.set(consumable, new Set([...list, ...wornBy(plan, member)]));
  }
  return [...suits].flatMap(([kind, ids]) =>
    ids.size < 2 ? [] : (reserveRelaxation(plan, [...ids], kind) ?? []),
  );
}

function wornBy(plan: Plan, member: number): string[] {
  return suitsOf(plan, plan.crew[member]!.id).map((suit) => suit.id);
}

function relaxationsFor(plan: Plan, { kind, about }: Cause, group: readonly number[]): Relaxation[] {
  switch (kind) {
    case "longest":
    case "ingress":
    case "egress":
      return outingRelaxations(plan.evas[about]!);
    case "window":
      return windowRelaxations(plan.tasks[about]!);
    case "pet":
      return petRelaxations(plan.tasks[about]!);
    case "sun":
      return sunRelaxations(plan.tasks[about]!);
    case "light":
    case "sun-angle":
      return [lightRelaxation(plan.tasks[about]!, kind)];
    case "relay":
      return relayRelaxations(plan);
    case "link":
      return linkRelaxations(plan, plan.links[about]!);
    case "pin":
    case "crew":
      return crewRelaxations(plan.tasks[about]!, kind);
    case "group":
      return [groupRelaxation(plan, about)];
    case "equipment":
      return [equipmentRelaxation(plan, about)];
    case "container":
      return group.flatMap((a) => containerRelaxations(plan, plan.tasks[a]!));
    case "consumable": {
      const { member, kind: consumable } = consumableOf(about);
      const relaxation = reserveRelaxation(plan, wornBy(plan, member), consumable);
      return relaxation ? [relaxation] : [];
    }
    default:
      // Placements are dropped in order of ease; the rest is not the planner's to give up.
      return [];
  }
}

/** The task and everything placed that needs it leave the day; nothing where the wanted ones need it. */
function dropRelaxation(
  problem: Problem,
  schedule: Schedule,
  group: readonly number[],
  activity: number,
): Relaxation[] {
  const { plan } = problem;
  const placed = new Set(schedule.placements.map((one) => one.task));
  const leaving = new Set<number>();
  const leave = (a: number): void => {
    if (leaving.has(a)) return;
    leaving.add(a);
    for (const b of problem.neededBy[a]!) if (placed.has(plan.tasks[b]!.id) || group.includes(b)) leave(b);
  };
  leave(activity);
  if (group.some((a) => leaving.has(a))) return [];
  const tasks = plan.tasks.filter((_, a) => leaving.has(a));
  const [first, ...others] = [
    plan.tasks[activity]!,
    ...tasks.filter((task) => task.id !== plan.tasks[activity]!.id),
  ];
  const drops = tasks.map((task) => task.id);
  const { worthLost } = tollIn(plan, schedule, drops);
  const along = others.length === 0 ? "" : ` with ${others.length} that need it`;
  return [
    {
      kind: "drop",
      subject: first.id,
      most: 1,
      drops,
      owner: null,
      change: (now) => now,
      size: () => tasks.length,
      say: () => `${first.name} goes to the bench${along}: worth ${worthLost} lost.`,
    },
  ];
}
