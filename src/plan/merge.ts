import { done, duration, failed, isEqual, type Outcome } from "../kernel/index.ts";
import { sameMembers } from "./changes.ts";
import { leavesInstrument } from "./instrument.ts";
import { differing, hinderingGroup, hinderingKeepOut, hinderingLink, hinderingPin } from "./mergeable.ts";
import type { Plan } from "./plan.ts";
import type { Placement, Schedule } from "./schedule.ts";
import { wholeName } from "./partname.ts";
import { rehung } from "./remedy.ts";
import { bindsParts, partsId } from "./split.ts";
import type { Link, Task } from "./task.ts";

/** Two tasks in one: the branches of the plan that change, the id of the one, and what it is called. */
export interface Merge {
  readonly parts: Partial<Plan>;
  readonly task: string;
  readonly name: string;
}

/**
 * The task that `id` was split from or into: the next part, else the one before; null where there is none. A link that only asks
 * the same as one between parts counts where no split has made one.
 */
export function otherPart(plan: Plan, id: string): string | null {
  const alike = plan.links.filter(bindsParts);
  const made = alike.filter((link) => link.id.startsWith(partsId(link.from.task)));
  for (const links of [made, alike]) {
    const next = links.find((link) => link.from.task === id)?.to.task;
    const other = next ?? links.find((link) => link.to.task === id)?.from.task;
    if (other !== undefined) return other;
  }
  return null;
}

/**
 * Tasks `a` and `b`, in whatever order, as one; words why not where they cannot be. The inverse of a split: durations,
 * worth, distance and masses are summed, steps follow each other, cautions and notes are put together, the one is must-do when
 * either is, and it keeps the id of the first.
 *
 * They can be one when they ask for the same (kind, crew, effort, equipment, windows, light, relay), at most one of
 * them walks to another place, one begins where the other ends, and they are bound as parts or lie back to back by
 * the same crew. Parts may also lie apart with nothing of that crew between, or both on the bench: the one begins where
 * the first did. The same is asked of every variant. Links between the two go where the one task keeps them; a lag
 * that counts from what would lie inside, or a keep-out or pin that tells the two apart, stands in the way.
 */
export function mergeTasks(plan: Plan, a: string, b: string): Outcome<Merge, string> {
  const ordered = inOrder(plan, a, b);
  if (!ordered.ok) return ordered;
  const [first, second] = ordered.value;
  const laid = laidOut(plan, first, second);
  if (!laid.ok) return laid;
  const hindrance =
    differing(first, second) ??
    hinderingPin(first, second) ??
    hinderingLink(plan, first, second) ??
    hinderingKeepOut(plan, first, second) ??
    hinderingGroup(plan, first, second);
  if (hindrance !== null) return failed(hindrance);
  const one = oneOf(first, second);
  return done({
    task: one.id,
    name: one.name,
    parts: {
      tasks: plan.tasks
        .flatMap((task) => (task === first ? [one] : task === second ? [] : [task]))
        .map((task) => rehung(task, second.id, first.id)),
      links: relinked(plan.links, first.id, second.id),
      site: siteOf(plan, first.id, second.id),
      schedule: laid.value[0]!,
      variants: plan.variants.map((variant, k) => ({ ...variant, schedule: laid.value[k + 1]! })),
    },
  });
}

/** Which of the two comes first: as bound, else as placed. */
function inOrder(plan: Plan, a: string, b: string): Outcome<[Task, Task], string> {
  const one = plan.tasks.find((task) => task.id === a);
  const other = plan.tasks.find((task) => task.id === b);
  if (!one || !other || one === other) return failed("Two tasks are needed.");
  for (const pair of [[one, other] as [Task, Task], [other, one] as [Task, Task]])
    if (areBound(plan, pair[0].id, pair[1].id)) return done(pair);
  const placement = (task: Task) => plan.schedule.placements.find((placed) => placed.task === task.id);
  const [here, there] = [placement(one), placement(other)];
  if (!here || !there)
    return failed("On the bench only the parts of a split task can be one: lay both on the line first.");
  return done(here.startS <= there.startS ? [one, other] : [other, one]);
}

function areBound(plan: Plan, first: string, second: string): boolean {
  return plan.links.some((link) => bindsParts(link) && link.from.task === first && link.to.task === second);
}

/** The plan's schedule and those of its variants with the one task in place of the two. */
function laidOut(plan: Plan, first: Task, second: Task): Outcome<readonly Schedule[], string> {
  const bound = areBound(plan, first.id, second.id);
  const all = [
    { where: "", schedule: plan.schedule },
    ...plan.variants.map((one) => ({ where: `In variant ${one.name}: `, schedule: one.schedule })),
  ];
  const laid: Schedule[] = [];
  for (const { where, schedule } of all) {
    const reason = hinderingLay(plan, schedule, first, second, bound);
    if (reason !== null) return failed(`${where}${reason}`);
    laid.push(
      schedule.placements.some((one) => one.task === second.id)
        ? { placements: schedule.placements.filter((one) => one.task !== second.id) }
        : schedule,
    );
  }
  return done(laid);
}

function hinderingLay(
  plan: Plan,
  schedule: Schedule,
  first: Task,
  second: Task,
  bound: boolean,
): string | null {
  const placement = (task: Task) => schedule.placements.find((one) => one.task === task.id);
  const [here, there] = [placement(first), placement(second)];
  if (!here && !there) return null;
  if (!here || !there) return `${(here ? second : first).name} is on the bench and the other is not.`;
  if (here.eva !== there.eva) return "They are on different EVAs.";
  if (!sameMembers(here.crew, there.crew)) return "They are done by different crew.";
  const endS = here.startS + first.duration.likelyS;
  if (there.startS < endS) return `${second.name} begins before ${first.name} ends.`;
  if (there.startS === endS) return null;
  if (!bound) return `${second.name} does not begin right where ${first.name} ends.`;
  const between = (one: Placement): boolean =>
    one.startS >= endS && one.startS < there.startS && one.crew.some((member) => here.crew.includes(member));
  const other = schedule.placements.find(between);
  const name = plan.tasks.find((task) => task.id === other?.task)?.name;
  return name === undefined ? null : `${name} lies between them.`;
}

function oneOf(first: Task, second: Task): Task {
  const sunAngle = first.sunAngle ?? second.sunAngle;
  const endPlace = second.endPlace ?? first.endPlace;
  const sample = oneSample(first.sample, second.sample);
  const mishap = second.mishap ?? first.mishap;
  const { instrument: firstLeaves, returns: firstReturns, bringsNothing: firstBrings, ...rest } = first;
  // Of two loads of which one stays and one comes back nothing can be said as of one.
  const loads = [first, second].filter((one) => one.massOutKg > 0).map((one) => one.returns);
  const returns =
    loads.length === 0 ? firstReturns : loads.every((one) => one === loads[0]) ? loads[0] : undefined;
  const instrument = leavesInstrument(first) && !leavesInstrument(second) ? firstLeaves : second.instrument;
  return {
    ...rest,
    name: wholeName(first.name, second.name),
    ...(endPlace === undefined ? {} : { endPlace }),
    ...(sunAngle === undefined ? {} : { sunAngle }),
    ...(sample === undefined ? {} : { sample }),
    // Nothing comes back of both where that is said of each.
    ...(firstBrings && second.bringsNothing ? { bringsNothing: true as const } : {}),
    ...(mishap === undefined ? {} : { mishap }),
    duration: oneDuration(first.duration, second.duration),
    worth: first.worth + second.worth,
    must: first.must || second.must,
    walkM: first.walkM + second.walkM,
    massOutKg: first.massOutKg + second.massOutKg,
    ...(instrument === undefined ? {} : { instrument }),
    ...(returns === undefined ? {} : { returns }),
    // A sum is given where all of it is.
    ...(second.toGive ? { toGive: second.toGive } : {}),
    cautions: [
      ...first.cautions,
      ...second.cautions.filter((one) => !first.cautions.some((other) => isEqual(one, other))),
    ],
    steps: [...first.steps, ...second.steps],
    notes: [first.notes, second.notes].filter((words) => words !== "").join("\n"),
  };
}

function oneDuration(a: Task["duration"], b: Task["duration"]): Task["duration"] {
  const sum = (key: "lowS" | "highS") =>
    a[key] === undefined && b[key] === undefined ? null : (a[key] ?? a.likelyS) + (b[key] ?? b.likelyS);
  const [low, high] = [sum("lowS"), sum("highS")];
  return {
    likelyS: duration(a.likelyS + b.likelyS),
    ...(low === null ? {} : { lowS: duration(low) }),
    ...(high === null ? {} : { highS: duration(high) }),
  };
}

function oneSample(a: Task["sample"], b: Task["sample"]): Task["sample"] {
  if (!a || !b) return a ?? b;
  const bags = oneBags(a.bags, b.bags);
  return {
    container: a.container,
    massKg: a.massKg + b.massKg,
    volumeL: a.volumeL + b.volumeL,
    ...(bags === undefined ? {} : { bags }),
  };
}

type Bags = NonNullable<Task["sample"]>["bags"];

/** The bags of both; that one is counted and the other numbered stands in the way (`mergeable`). */
function oneBags(a: Bags, b: Bags): Bags {
  if (a === undefined || b === undefined) return a ?? b;
  if (typeof a === "number" || typeof b === "number") return Number(a) + Number(b);
  return [...a, ...b];
}

/** Links of the one task: those between the two go, and what was asked of both is asked once. */
function relinked(links: readonly Link[], first: string, second: string): Link[] {
  const name = (id: string): string => (id === second ? first : id);
  const linked: string[] = [];
  const key = (link: Link): string => JSON.stringify({ ...link, id: "" });
  const moved = links.flatMap((link): { link: Link; from: Link }[] => {
    if (link.type === "lag") {
      const next = {
        ...link,
        from: { ...link.from, task: name(link.from.task) },
        to: { ...link.to, task: name(link.to.task) },
      };
      return next.from.task === next.to.task ? [] : [{ link: next, from: link }];
    }
    const tasks: [string, string] = [name(link.tasks[0]), name(link.tasks[1])];
    if (tasks[0] === tasks[1]) return [];
    if (link.tasks.includes(first)) linked.push(key(link));
    return [{ link: { ...link, tasks }, from: link }];
  });
  return moved.flatMap(({ link, from }) => {
    if (link.type === "lag" || from.type === "lag" || !from.tasks.includes(second)) return [link];
    const twin = linked.indexOf(key(link));
    if (twin < 0) return [link];
    linked.splice(twin, 1);
    return [];
  });
}

function siteOf(plan: Plan, first: string, second: string): Plan["site"] {
  const named = plan.site.keepOuts.some(
    (one) => one.afterTask === second || one.exemptTasks.includes(second),
  );
  if (!named) return plan.site;
  const keepOuts = plan.site.keepOuts.map((one) => ({
    ...one,
    ...(one.afterTask === second ? { afterTask: first } : {}),
    exemptTasks: one.exemptTasks.filter((task) => task !== second),
  }));
  return { ...plan.site, keepOuts };
}
