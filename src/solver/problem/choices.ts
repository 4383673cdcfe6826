import { carriedKg, FASTEST_MS } from "../../physics/index.ts";
import { leavesInstrument, type Plan, type Task } from "../../plan/index.ts";
import { distance, type Inside } from "../../terrain/index.ts";
import type { LegTable } from "./ground.ts";
import type { RouteKey } from "./outings.ts";
import { DISTANCE_TOLERANCE_M, standsIn } from "./relations.ts";

/**
 * Who may do an activity (task-crew, pin, suit-worn-once, walk-back-emergency, no-way, link-crew's one-sided cases): sets of routes of one EVA. A
 * task that can never be placed (walking-physics, blast-keep-out, carry, a keep-out that is always hot, a work stretch longer than the limit)
 * has no choice; a crew-less task has one empty choice.
 */
export function choosing(
  plan: Plan,
  ground: LegTable,
  routes: readonly RouteKey[],
): (activity: number) => number[][] {
  const parties = partiesOf(plan, ground, routes);
  return (activity) => {
    const task = plan.tasks[activity]!;
    if (neverAllowed(plan, ground, task, activity)) return [];
    const { count } = task.crew;
    const { pin } = task;
    if (count === 0) return pin?.eva === undefined && (pin?.crew ?? []).length === 0 ? [[]] : [];
    const inside = ground.inside(task);
    const able = (route: number): boolean =>
      ground.mayStand(route, inside.from) &&
      ground.mayStand(route, inside.to) &&
      ground.mayWalk(route, inside);
    return parties.flatMap(({ eva, all }) =>
      pin?.eva !== undefined && pin.eva !== eva
        ? []
        : subsets(all.filter(able), count).filter((set) =>
            isEligible(
              task,
              set.map((r) => plan.crew[routes[r]!.member]!),
            ),
          ),
    );
  };
}

/** Who goes out on each EVA on which all may stand at the lander together. */
function partiesOf(
  plan: Plan,
  ground: LegTable,
  routes: readonly RouteKey[],
): { readonly eva: string; readonly all: readonly number[] }[] {
  const { lander } = ground.ways;
  return plan.evas.flatMap((eva, e) => {
    const all = routes.flatMap((route, r) => (route.eva === e ? [r] : []));
    return ground.mayFly(e) && all.every((route) => ground.mayStand(route, lander))
      ? [{ eva: eva.id, all }]
      : [];
  });
}

/** Whether the task is for these crew members: named, pinned and qualified as it asks. */
function isEligible(
  { crew: { named, qualification }, pin }: Task,
  crew: readonly Plan["crew"][number][],
): boolean {
  const isThere = (id: string): boolean => crew.some((member) => member.id === id);
  if (!named.every(isThere)) return false;
  if (pin?.crew && !(pin.crew.length === crew.length && pin.crew.every(isThere))) return false;
  return qualification === undefined || crew.some((member) => member.qualifications.includes(qualification));
}

/** walking-physics: true where the plan walks, or walks back, faster than anybody was timed in a suit: then nobody goes out. */
export function tooFast({ rules }: Pick<Plan, "rules">): boolean {
  return Math.max(rules.walking.speedMs, rules.walkback.speedMs) > FASTEST_MS;
}

/** walking-physics: true where a task is shorter than what is walked in it. */
export function tooShort(task: Task, { leastS }: Inside): boolean {
  return task.crew.count > 0 && task.duration.likelyS < leastS;
}

/** blast-keep-out: how far from the lander a task leaves its instrument, m; null where it leaves none, or at no place. */
export function inBlastM({ site }: Plan, task: Task): number | null {
  const end = site.places.find((place) => place.id === (task.endPlace ?? task.place));
  const lander = site.places.find((place) => place.kind === "lander");
  return leavesInstrument(task) && end && lander ? distance(lander, end) + DISTANCE_TOLERANCE_M : null;
}

function neverAllowed(plan: Plan, ground: LegTable, task: Task, activity: number): boolean {
  const { blast, work, carry } = plan.rules;
  if (task.crew.count > 0 && tooFast(plan)) return true;
  if (tooShort(task, ground.inside(task))) return true;
  if (blast.level === "breach" && (inBlastM(plan, task) ?? Infinity) < blast.leastM) return true;
  if (work.level === "breach" && task.crew.count > 0 && task.effort !== "rest") {
    if (task.duration.likelyS > work.longestS) return true;
  }
  if (carry.level === "breach" && task.crew.count > 0) {
    if (task.massOutKg > carriedKg(carry.greatestN, plan.body.gravityMs2, task.crew.count)) return true;
  }
  return plan.site.keepOuts.some(
    (keepOut, k) =>
      keepOut.kind === "hot" &&
      keepOut.afterTask === undefined &&
      !keepOut.exemptTasks.includes(task.id) &&
      standsIn(plan, activity, k),
  );
}

function subsets(items: readonly number[], count: number): number[][] {
  if (count === 0) return [[]];
  return items.flatMap((first, i) => subsets(items.slice(i + 1), count - 1).map((rest) => [first, ...rest]));
}
