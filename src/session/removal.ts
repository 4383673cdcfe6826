import type { Group, KeepOut, Plan, Schedule, Task } from "../plan/index.ts";
import { crewName, taskName } from "../words/index.ts";
import { unpinned } from "./placing.ts";

/** Kinds of things in a plan that others may name. */
export type Removable =
  | "task"
  | "crew"
  | "suit"
  | "eva"
  | "equipment"
  | "container"
  | "place"
  | "keep-out"
  | "link"
  | "group"
  | "block"
  | "pass"
  | "variant";

/** What taking a thing out of the plan comes to. */
export interface Removal {
  /** Why it cannot be taken out as things are; empty when it can. */
  readonly hindrances: readonly string[];
  /** What goes or changes with it, a sentence each; empty when nothing names it. */
  readonly consequences: readonly string[];
  /** A milder change that keeps what names it, where there is one: how it is offered, what it comes to. */
  readonly instead?: {
    readonly words: string;
    readonly says: string;
    readonly change: (plan: Plan) => Partial<Plan>;
  };
  /** The plan's branches without the thing and without anything that names it. */
  readonly change: (plan: Plan) => Partial<Plan>;
}

/**
 * What it would mean to take out the thing of this kind and id. Where leaving out a name would loosen the plan
 * unseen (samples without a container, a task without its place) it is refused instead.
 */
export function removalOf(plan: Plan, kind: Removable, id: string): Removal {
  return REMOVALS[kind](plan, id);
}

const NOTHING: readonly string[] = [];

function simple(change: Removal["change"], consequences = NOTHING, hindrances = NOTHING): Removal {
  return { hindrances, consequences, change };
}

const others =
  (id: string) =>
  (one: { readonly id: string }): boolean =>
    one.id !== id;

const REMOVALS: Readonly<Record<Removable, (plan: Plan, id: string) => Removal>> = {
  task: removeTask,
  crew: removeCrew,
  eva: removeEva,
  place: removePlace,
  suit: removeSuit,
  equipment: removeEquipment,
  container: (plan, id) =>
    simple(
      (now) => ({ containers: now.containers.filter(others(id)) }),
      NOTHING,
      plan.tasks
        .filter((task) => task.sample?.container === id)
        .map((task) => `${task.name} puts its sample in it: choose another container first.`),
    ),
  "keep-out": (_plan, id) =>
    simple((now) => ({ site: { ...now.site, keepOuts: now.site.keepOuts.filter(others(id)) } })),
  link: (_plan, id) => simple((now) => ({ links: now.links.filter(others(id)) })),
  group: (_plan, id) => simple((now) => ({ groups: now.groups.filter(others(id)) })),
  block: (_plan, id) =>
    simple((now) => ({ stay: { ...now.stay, blocks: now.stay.blocks.filter(others(id)) } })),
  pass: (_plan, id) =>
    simple((now) => ({ stay: { ...now.stay, relayPasses: now.stay.relayPasses.filter(others(id)) } })),
  variant: (_plan, id) => simple((now) => ({ variants: now.variants.filter(others(id)) })),
};

/** Whose own it is needs another one first; who wears it on an EVA only wears their own there again. */
function removeSuit(plan: Plan, id: string): Removal {
  const borrowed = plan.evas.flatMap((eva) =>
    Object.entries(eva.suits).flatMap(([member, suit]) => (suit === id ? [{ eva, member }] : [])),
  );
  return simple(
    (now) => ({
      suits: now.suits.filter(others(id)),
      evas: keepingSuits(now.evas, (_, suit) => suit !== id),
    }),
    borrowed.map(({ eva, member }) => `${crewName(plan, member)} wears their own suit on ${eva.name}.`),
    plan.crew
      .filter((one) => one.suit === id)
      .map((one) => `${one.name} wears it: choose another suit first.`),
  );
}

/** The EVAs with only those suits of theirs that stay; the same list where all do. */
function keepingSuits(evas: Plan["evas"], stays: (member: string, suit: string) => boolean): Plan["evas"] {
  const goes = (eva: Plan["evas"][number]): boolean =>
    Object.entries(eva.suits).some(([member, suit]) => !stays(member, suit));
  if (!evas.some(goes)) return evas;
  return evas.map((eva) =>
    goes(eva)
      ? {
          ...eva,
          suits: Object.fromEntries(
            Object.entries(eva.suits).filter(([member, suit]) => stays(member, suit)),
          ),
        }
      : eva,
  );
}

/** A tool that is lost leaves its tasks asking for it: taking it out of the plan frees them, setting it to 0 does not. */
function removeEquipment(plan: Plan, id: string): Removal {
  const users = plan.tasks.filter((task) => task.equipment.some((use) => use.equipment === id));
  const removal = simple(
    (now) => ({
      equipment: now.equipment.filter(others(id)),
      tasks: now.tasks.map((task) =>
        task.equipment.some((use) => use.equipment === id)
          ? { ...task, equipment: task.equipment.filter((use) => use.equipment !== id) }
          : task,
      ),
    }),
    users.length === 0
      ? NOTHING
      : [
          `${users.length === 1 ? "1 task loses its" : `${users.length} tasks lose their`} need of it and may be done without it.`,
          ...users.map((task) => `${task.name} no longer asks for it.`),
        ],
  );
  if (users.length === 0) return removal;
  return {
    ...removal,
    instead: {
      words: "Set to 0 instead",
      says: "If it is missing or broken, set how many there are to 0: the tasks go on asking for it and cannot be done.",
      change: (now) => ({
        equipment: now.equipment.map((one) => (one.id === id ? { ...one, count: 0 } : one)),
      }),
    },
  };
}

function removeTask(plan: Plan, id: string): Removal {
  const named = plan.links.filter((link) => tasksOf(link).includes(id));
  const placements = placementCount(plan, (one) => one.task === id);
  const heated = plan.site.keepOuts.filter((keepOut) => keepOut.afterTask === id);
  const exempt = plan.site.keepOuts.filter((keepOut) => keepOut.exemptTasks.includes(id));
  const groups = plan.groups.filter(({ tasks }) => tasks.includes(id));
  const nameOf = (task: string) => taskName(plan, task);
  return simple(
    (now) => ({
      tasks: now.tasks.filter(others(id)).map((task) => withoutRemedyAfter(task, id)),
      ...(groups.length === 0 ? {} : { groups: now.groups.map((group) => withoutMember(group, id)) }),
      links: kept(now.links, (link) => !tasksOf(link).includes(id)),
      site: now.site.keepOuts.some((one) => one.afterTask === id || one.exemptTasks.includes(id))
        ? { ...now.site, keepOuts: now.site.keepOuts.map((one) => withoutTask(one, id)) }
        : now.site,
      ...replaced(now, (one) => one.task !== id),
    }),
    [
      ...(placements > 0 ? ["Its place on the day line goes, in variants as well."] : []),
      ...named.map((link) => {
        const other = tasksOf(link).find((task) => task !== id) ?? id;
        return `Its link with ${nameOf(other)} goes.`;
      }),
      ...groups.map(({ name, least, tasks }) =>
        least < tasks.length
          ? `Group ${name} has one task less.`
          : `Group ${name} has one task less, and must have ${least - 1} instead of ${least}.`,
      ),
      ...heated.map((one) => `Keep-out ${one.name} waits for it: it will hold always.`),
      ...exempt.map((one) => `Keep-out ${one.name} no longer exempts it.`),
      ...plan.tasks
        .filter((task) => task.mishap?.remedy?.after === id && task.id !== id)
        .map((task) => `What goes wrong with ${task.name} is no longer made good at its end.`),
    ],
  );
}

/** The task; where it was made good at the end of `id`, which goes, with nothing that makes it good. */
function withoutRemedyAfter(task: Task, id: string): Task {
  if (task.mishap?.remedy?.after !== id) return task;
  const mishap = { ...task.mishap };
  delete mishap.remedy;
  return { ...task, mishap };
}

function withoutTask(keepOut: KeepOut, id: string): KeepOut {
  const { afterTask, ...rest } = keepOut;
  const exemptTasks = keepOut.exemptTasks.filter((task) => task !== id);
  return afterTask === undefined || afterTask === id
    ? { ...rest, exemptTasks }
    : { ...rest, afterTask, exemptTasks };
}

/** The group without the task, and with no more to be done than it still has. */
function withoutMember(group: Group, id: string): Group {
  const tasks = group.tasks.filter((task) => task !== id);
  return tasks.length === group.tasks.length
    ? group
    : { ...group, tasks, least: Math.min(group.least, tasks.length) };
}

function removeCrew(plan: Plan, id: string): Removal {
  const out = plan.evas.filter((eva) => eva.crew.includes(id));
  const alone = out.filter((eva) => eva.crew.length === 1);
  const rests = plan.stay.blocks.filter((block) => block.crew.includes(id));
  const named = plan.tasks.filter((task) => task.crew.named.includes(id));
  const pinned = plan.tasks.filter((task) => task.pin?.crew?.includes(id));
  const placements = placementCount(plan, (one) => one.crew.includes(id));
  const stays = (member: string): boolean => member !== id;
  return simple(
    (now) => ({
      crew: now.crew.filter(others(id)),
      evas: keepingSuits(now.evas, stays).map((eva) =>
        eva.crew.includes(id) ? { ...eva, crew: eva.crew.filter(stays) } : eva,
      ),
      stay: now.stay.blocks.some((block) => block.crew.includes(id))
        ? {
            ...now.stay,
            // A block that names nobody is everybody's, so one that named only this crew member goes.
            blocks: now.stay.blocks
              .filter((block) => block.crew.length !== 1 || block.crew[0] !== id)
              .map((block) => ({ ...block, crew: block.crew.filter(stays) })),
          }
        : now.stay,
      tasks: now.tasks.map((task) => withoutCrew(task, id)),
      ...replaced(now, (one) => !one.crew.includes(id)),
    }),
    [
      ...out.map((eva) => `${eva.name} goes out without ${crewName(plan, id)}.`),
      ...rests.map((block) =>
        block.crew.length === 1 ? `${block.name} goes.` : `${block.name} no longer names this one.`,
      ),
      ...named.map((task) => `${task.name} no longer asks for this one by name.`),
      ...pinned.map((task) => `${task.name} loses the pin of its crew.`),
      ...(placements > 0
        ? [
            `${placements} ${placements === 1 ? "placement goes" : "placements go"} to the bench, variants counted.`,
          ]
        : []),
    ],
    alone.map((eva) => `${eva.name} would have nobody: give it another crew member or remove it first.`),
  );
}

function withoutCrew(task: Task, id: string): Task {
  const free = task.pin?.crew?.includes(id) ? unpinned(task, ["crew"]) : task;
  if (!free.crew.named.includes(id)) return free;
  return { ...free, crew: { ...free.crew, named: free.crew.named.filter((member) => member !== id) } };
}

function removeEva(plan: Plan, id: string): Removal {
  const pinned = plan.tasks.filter((task) => task.pin?.eva === id);
  const placements = placementCount(plan, (one) => one.eva === id);
  return simple(
    (now) => ({
      evas: now.evas.filter(others(id)),
      tasks: now.tasks.map((task) => (task.pin?.eva === id ? unpinned(task, ["eva"]) : task)),
      ...replaced(now, (one) => one.eva !== id),
    }),
    [
      ...(placements > 0
        ? [
            `${placements} ${placements === 1 ? "placement goes" : "placements go"} to the bench, variants counted.`,
          ]
        : []),
      ...pinned.map((task) => `${task.name} loses the pin of its EVA.`),
    ],
  );
}

function removePlace(plan: Plan, id: string): Removal {
  const place = plan.site.places.find((one) => one.id === id);
  const legs = plan.site.legs.filter((leg) => leg.from === id || leg.to === id);
  const used = plan.tasks.filter((task) => task.place === id || task.endPlace === id);
  return simple(
    (now) => ({
      site: {
        ...now.site,
        places: now.site.places.filter(others(id)),
        legs: kept(now.site.legs, (leg) => leg.from !== id && leg.to !== id),
      },
    }),
    legs.length > 0
      ? [`${legs.length} traverse ${legs.length === 1 ? "leg" : "legs"} to or from it go.`]
      : [],
    [
      ...(place?.kind === "lander" ? ["It is the lander: every plan has exactly one."] : []),
      ...used.map((task) => `${task.name} is done there: choose another place for it first.`),
    ],
  );
}

function tasksOf(link: Plan["links"][number]): readonly string[] {
  return link.type === "lag" ? [link.from.task, link.to.task] : link.tasks;
}

/** `list` without what `stays` refuses; the same list when all stay. */
function kept<Item>(list: Item[], stays: (item: Item) => boolean): Item[] {
  const left = list.filter(stays);
  return left.length === list.length ? list : left;
}

type Placed = Schedule["placements"][number];

function placementCount(plan: Plan, matches: (placement: Placed) => boolean): number {
  const all = [plan.schedule, ...plan.variants.map((variant) => variant.schedule)];
  return all.reduce((sum, schedule) => sum + schedule.placements.filter(matches).length, 0);
}

/** Schedule and variants with only the placements that stay; the same objects where all stay. */
function replaced(plan: Plan, stays: (placement: Placed) => boolean): Pick<Plan, "schedule" | "variants"> {
  const left = (schedule: Schedule): Schedule => {
    const placements = kept(schedule.placements, stays);
    return placements === schedule.placements ? schedule : { placements };
  };
  const variants = plan.variants.map((variant) => {
    const schedule = left(variant.schedule);
    return schedule === variant.schedule ? variant : { ...variant, schedule };
  });
  const same = variants.every((variant, index) => variant === plan.variants[index]);
  return { schedule: left(plan.schedule), variants: same ? plan.variants : variants };
}
