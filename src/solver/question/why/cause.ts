import type { CauseKind } from "../../../answers/index.ts";
import { CONSUMABLES } from "../../../physics/index.ts";
import { leavesInstrument, type Plan, type Schedule, sharingSuits } from "../../../plan/index.ts";
import { FLIGHT_RULES, type FlightRule, RULE_IDS } from "../../../rules/index.ts";
import { insideOf } from "../../../terrain/index.ts";
import { tooFast, tooShort } from "../../problem/choices.ts";
import { KINDS, type Problem } from "../../problem/problem.ts";

/**
 * One thing that can stand against a schedule: a rule on something, or a placement that is to stay. `about` is a number in the
 * plan's list of what the kind speaks of (tasks, links, EVAs, ...), for "consumable" the crew member times the number of
 * consumables plus the consumable, and 0 for rules on the whole stay.
 */
export interface Cause {
  readonly kind: CauseKind;
  readonly about: number;
}

/** The flight rule that a cause is of; one of them where it is of several that go together, such as reserves and links. */
const RULE_OF = new Map<string, FlightRule>(
  RULE_IDS.flatMap((rule) => FLIGHT_RULES[rule].causes.map((kind) => [kind, FLIGHT_RULES[rule]] as const)),
);

/** Who owns what is not for the planner to bargain with; null where the planner decides, or whoever decides may be asked. */
export function ownerOf(kind: CauseKind): string | null {
  // The end of the stay is no EVA's to move.
  if (kind === "liftoff") return "the flight director";
  const rule = RULE_OF.get(kind);
  return !rule || rule.eases ? null : rule.decides;
}

/** A cause's name, the same for the same cause. */
export function keyOf(cause: Cause): string {
  return `${cause.kind} ${cause.about}`;
}

/**
 * Everything that can stand against `schedule` with the tasks `wanted` beside it. Earlier ones are preferred in a conflict: rules
 * before placements, and of those the ones that are least worth, as they would be dropped most easily.
 */
export function causesOf(problem: Problem, schedule: Schedule, wanted: readonly number[]): Cause[] {
  const { plan, limits } = problem;
  const index = new Map(plan.tasks.map((task, a) => [task.id, a]));
  const placed = schedule.placements.flatMap((one) => index.get(one.task) ?? []);
  const involved = [...new Set([...wanted, ...placed])];
  const here = new Set(involved.map((a) => plan.tasks[a]!.id));
  const links = plan.links.flatMap((link, l) => {
    const ends = link.type === "lag" ? [link.from.task, link.to.task] : link.tasks;
    return ends.some((id) => here.has(id)) ? [cause("link", l)] : [];
  });
  return [
    ...each(plan.evas.length, "longest"),
    ...each(plan.evas.length, "ingress"),
    ...each(plan.evas.length, "egress"),
    ...involved.flatMap((a) => requestCauses(plan, a)),
    ...links,
    ...plan.groups.flatMap(({ most, tasks }, g) =>
      most !== undefined && tasks.some((id) => here.has(id)) ? [cause("group", g)] : [],
    ),
    ...plan.site.keepOuts.flatMap((one, k) => (one.kind === "hot" ? [cause("hot", k)] : [])),
    ...outingCauses(problem, wanted),
    ...when(limits.dutyS !== Infinity, "duty"),
    ...plan.evas.flatMap((eva, e) => (sharingSuits(plan, eva).length > 0 ? [cause("suit", e)] : [])),
    ...when(plan.rules.recharge.level === "breach", "recharge"),
    ...when(limits.storesBind, "stores"),
    ...plan.equipment.flatMap((_, q) => (problem.slotEquipment.includes(q) ? [cause("equipment", q)] : [])),
    ...each(plan.containers.length, "container"),
    ...when(problem.loads.returnGrams !== Infinity, "return-mass"),
    ...each(plan.stay.blocks.length, "block"),
    ...when(true, "liftoff"),
    ...byEase(plan, placed).map((a) => cause("placement", a)),
  ];
}

/** What the request of task `a` asks for. */
function requestCauses({ tasks, rules }: Plan, a: number): Cause[] {
  const task = tasks[a]!;
  return [
    ...when(task.windows.length > 0, "window", a),
    ...when(task.pet !== undefined, "pet", a),
    ...when(task.sun !== undefined, "sun", a),
    ...when(task.light !== undefined, "light", a),
    ...when(task.sunAngle !== undefined, "sun-angle", a),
    ...when(task.relay, "relay", a),
    ...when(task.pin !== undefined, "pin", a),
    ...when(task.crew.named.length > 0 || task.crew.qualification !== undefined, "crew", a),
    ...when(leavesInstrument(task) && rules.blast.level === "breach", "blast", a),
    ...when(task.massOutKg > 0 && rules.carry.level === "breach", "carry", a),
  ];
}

/** What the crew's bodies and suits, and the ways that they walk, ask for. */
function outingCauses(problem: Problem, wanted: readonly number[]): Cause[] {
  const { plan, limits, draws } = problem;
  const drinks = plan.suits.some((suit) => suit.drinkKg !== undefined);
  return [
    ...each(problem.members * KINDS, "consumable").filter(
      ({ about }) => draws.kindBinds[about % KINDS] === 1,
    ),
    ...when(tooFast(plan) || wanted.some((a) => walksTooFast(problem, a)), "walking-physics"),
    ...when(draws.walkbackBinds.includes(1), "walk-back-consumables"),
    ...when(plan.suits.length > 0, "walk-back-emergency"),
    ...when(limits.apartM !== Infinity, "separation"),
    ...when(limits.workS !== Infinity, "work"),
    ...when(problem.heat !== null, "heat"),
    ...when(plan.rules.drinking.level === "breach" && drinks, "drinking"),
    ...when(limits.evaM !== Infinity, "eva-distance"),
    ...when(limits.stayM !== Infinity, "stay-distance"),
  ];
}

function each(count: number, kind: CauseKind): Cause[] {
  return Array.from({ length: count }, (_, k) => cause(kind, k));
}

function when(isThere: boolean, kind: CauseKind, about = 0): Cause[] {
  return isThere ? [cause(kind, about)] : [];
}

function cause(kind: CauseKind, about: number): Cause {
  return { kind, about };
}

/** Tasks from the one that is dropped most easily: optional ones first, of those the least worth. */
export function byEase(plan: Plan, tasks: readonly number[]): number[] {
  const rank = (a: number): number => (plan.tasks[a]!.must ? 1 : 0);
  return [...tasks].sort((a, b) => rank(a) - rank(b) || plan.tasks[a]!.worth - plan.tasks[b]!.worth || a - b);
}

/** Crew member and consumable of a "consumable" cause. */
export function consumableOf(about: number): { member: number; kind: (typeof CONSUMABLES)[number] } {
  return { member: Math.floor(about / KINDS), kind: CONSUMABLES[about % KINDS]! };
}

/** True when the task is shorter than what is walked in it (walking-physics). */
export function walksTooFast({ plan, ways }: Problem, a: number): boolean {
  const task = plan.tasks[a]!;
  return tooShort(task, insideOf(ways, task, plan.rules.walking.speedMs));
}
