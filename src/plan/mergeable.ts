import { isEqual } from "../kernel/index.ts";
import { sameMembers } from "./changes.ts";
import { leavesInstrument } from "./instrument.ts";
import type { Plan } from "./plan.ts";
import type { LagLink, Link, Task } from "./task.ts";

/** Why two tasks cannot be one, in words; null where nothing stands in the way. The first comes before the second. */

/** What the two ask for otherwise than each other. */
export function differing(first: Task, second: Task): string | null {
  const compared: readonly (readonly [what: string, same: boolean])[] = [
    ["kind", first.kind === second.kind],
    ["number of crew", first.crew.count === second.crew.count],
    ["named crew", sameMembers(first.crew.named, second.crew.named)],
    ["qualification", first.crew.qualification === second.crew.qualification],
    ["effort", isEqual(first.effort, second.effort)],
    ["equipment", sameEntries(first.equipment, second.equipment)],
    ["windows", sameEntries(first.windows, second.windows)],
    ["window from egress", isEqual(first.pet, second.pet)],
    ["sun elevation", isEqual(first.sun, second.sun)],
    ["ground in sun or shadow", first.light === second.light],
    ["relay", first.relay === second.relay],
    ["sun and heading", sameAngle(first, second)],
    ["what may go wrong", !first.mishap || !second.mishap || isEqual(first.mishap, second.mishap)],
    ["how their bags are numbered", sameBags(first.sample?.bags, second.sample?.bags)],
    ["container", !first.sample || !second.sample || first.sample.container === second.sample.container],
  ];
  const others = compared.filter(([, same]) => !same).map(([what]) => what);
  if (others.length > 0) return `They differ in ${others.join(", ")}.`;
  const firstEnds = first.endPlace ?? first.place;
  const secondEnds = second.endPlace ?? second.place;
  if (firstEnds !== second.place) return `${second.name} does not begin where ${first.name} ends.`;
  if (firstEnds !== first.place && secondEnds !== second.place)
    return "Both walk to another place: one task goes to one end place only.";
  if (leavesInstrument(first) && firstEnds !== secondEnds)
    return `${first.name} leaves its instrument where the one task would not end.`;
  return null;
}

/** True when both are counted, both have numbers of their own, or one is not known. */
function sameBags(a: unknown, b: unknown): boolean {
  return a === undefined || b === undefined || typeof a === typeof b;
}

/** The first part of a split stands still, and asks for no angle that is counted from the walk. */
function sameAngle(first: Task, second: Task): boolean {
  const staysPut = first.endPlace === undefined || first.endPlace === first.place;
  if (!first.sunAngle && second.sunAngle && second.sunAngle.facingDeg === undefined) return staysPut;
  return isEqual(first.sunAngle, second.sunAngle);
}

export function hinderingPin(first: Task, second: Task): string | null {
  const [a, b] = [first.pin, second.pin];
  if (!a && !b) return null;
  if (!a || !b) return `Only ${(a ? first : second).name} is pinned: unpin it first.`;
  const wantedS = a.startS === undefined ? undefined : a.startS + first.duration.likelyS;
  return a.eva === b.eva && sameMembers(a.crew ?? [], b.crew ?? []) && b.startS === wantedS
    ? null
    : "They are pinned to different starts, EVAs or crew: unpin them first.";
}

export function hinderingLink(plan: Plan, first: Task, second: Task): string | null {
  for (const link of plan.links) {
    const why =
      link.type === "lag" ? hinderingLag(plan, link, first, second) : hinderingPair(link, first, second);
    if (why !== null) return why;
  }
  return null;
}

/** A lag between the two that one task would not keep, or one that counts from where they meet. */
function hinderingLag(plan: Plan, link: LagLink, first: Task, second: Task): string | null {
  const both = [first.id, second.id];
  const ends = [link.from, link.to];
  const mine = ends.filter((end) => both.includes(end.task));
  if (mine.length === 2)
    return holdsInside(link, first, second)
      ? null
      : "A link between them asks for another time than one task leaves.";
  const inner = mine.find(({ task, end }) => (task === first.id ? end === "end" : end === "start"));
  if (!inner) return null;
  const other = ends.find((end) => !both.includes(end.task))!;
  const nameOf = (id: string): string => plan.tasks.find((task) => task.id === id)?.name ?? id;
  return `A link with ${nameOf(other.task)} counts from the ${inner.end} of ${nameOf(inner.task)}, which would lie inside.`;
}

/** A link that keeps the two apart, or the first's end from where the one task would end. */
function hinderingPair(link: Exclude<Link, LagLink>, first: Task, second: Task): string | null {
  const mine = link.tasks.filter((task) => task === first.id || task === second.id);
  if (mine.length === 2 && link.type === "apart") return "A link keeps them apart: by distance.";
  if (mine.length === 2 && link.type === "crew" && link.crew === "different")
    return "A link keeps them apart: by different crew.";
  const endOf = (task: Task): string | undefined => task.endPlace ?? task.place;
  if (link.type === "apart" && mine[0] === first.id && endOf(first) !== endOf(second))
    return `A link keeps the end of ${first.name} at a distance, and the one task ends elsewhere.`;
  return null;
}

/** True when one task in place of the two keeps a lag between their ends. */
function holdsInside(link: LagLink, first: Task, second: Task): boolean {
  const at = ({ task, end }: LagLink["from"]): number => {
    const startS = task === first.id ? 0 : first.duration.likelyS;
    return startS + (end === "start" ? 0 : (task === first.id ? first : second).duration.likelyS);
  };
  const lagS = at(link.to) - at(link.from);
  return lagS >= (link.leastS ?? lagS) && lagS <= (link.greatestS ?? lagS);
}

export function hinderingKeepOut(plan: Plan, first: Task, second: Task): string | null {
  for (const { name, afterTask, exemptTasks } of plan.site.keepOuts) {
    if (afterTask === first.id)
      return `Keep-out ${name} waits for the end of ${first.name}, which would lie inside.`;
    const exempt = [first, second].filter((task) => exemptTasks.includes(task.id));
    if (exempt.length === 1) return `Keep-out ${name} exempts ${exempt[0]!.name} only.`;
  }
  return null;
}

/** A group that counts the second, or that says what the first counts. */
export function hinderingGroup(plan: Plan, first: Task, second: Task): string | null {
  for (const { name, shares, tasks } of plan.groups) {
    if (tasks.includes(second.id)) return `Group ${name} counts ${second.name} for itself.`;
    if (shares.length > 0 && tasks.includes(first.id)) return `Group ${name} says what ${first.name} counts.`;
  }
  return null;
}

/** True when both lists have the same entries, in whatever order. */
function sameEntries(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((one) => b.some((other) => isEqual(one, other)));
}
