import { isEqual, isRecord } from "../../kernel/index.ts";
import { freshId } from "../freshid.ts";
import type { Plan } from "../plan.ts";
import { freshNumber } from "../tasknumber.ts";
import { type Pattern, type Rename, renamedAt, renamedPatch } from "./renaming.ts";

/**
 * Two hands that each add a thing give it the same id and number, since both come next. What they added stays two things: theirs gets
 * an id of its own before anything is put together, or else what they say of theirs would be said of mine.
 */

/** Lists whose things have ids, by path, and where such an id stands (`Pattern`). */
const NAMED: Readonly<Record<string, readonly string[]>> = {
  tasks: [
    "tasks.*.mishap.remedy.after",
    "links.*.from.task",
    "links.*.to.task",
    "links.*.tasks.*",
    "groups.*.tasks.*",
    "site.keepOuts.*.afterTask",
    "site.keepOuts.*.exemptTasks.*",
    "schedule.placements.*.task",
    "variants.*.schedule.placements.*.task",
  ],
  "site.places": ["tasks.*.place", "tasks.*.endPlace", "site.legs.*.from", "site.legs.*.to"],
  crew: [
    "evas.*.crew.*",
    "evas.*.suits.@",
    "tasks.*.crew.named.*",
    "tasks.*.pin.crew.*",
    "stay.blocks.*.crew.*",
    "schedule.placements.*.crew.*",
    "variants.*.schedule.placements.*.crew.*",
  ],
  suits: ["crew.*.suit", "evas.*.suits.*"],
  evas: ["tasks.*.pin.eva", "schedule.placements.*.eva", "variants.*.schedule.placements.*.eva"],
  equipment: ["tasks.*.equipment.*.equipment"],
  containers: ["tasks.*.sample.container"],
  links: [],
  groups: [],
  variants: [],
  "site.keepOuts": [],
  "stay.blocks": [],
  "stay.relayPasses": [],
};

/** `theirs` with other ids for what both added under one, where it is not the same thing. */
export function withOwnIds(base: Plan, mine: Plan, theirs: Plan): Plan {
  return Object.entries(NAMED).reduce((plan, [list, references]) => {
    const [was, here, there] = [base, mine, plan].map((one) => thingsIn(one, list));
    const taken = new Set([was!, here!, there!].flatMap((things) => [...things.keys()]));
    const other = new Map<string, string>();
    for (const [id, thing] of there!)
      if (!was!.has(id) && here!.has(id) && !isEqual(here!.get(id), thing)) other.set(id, freshId(id, taken));
    if (other.size === 0) return plan;
    const rename = (id: string): string => other.get(id) ?? id;
    const patterns = [`${list}.*.id`, ...references].map((path) => path.split("."));
    const inPlan = patterns.reduce<unknown>((one, pattern) => renamedAt(one, pattern, rename), plan) as Plan;
    const renamed = withGivenUp(inPlan, patterns, rename);
    return list === "tasks" ? withRemarks(renamed, rename) : renamed;
  }, theirs);
}

/** A task that has another number than the hand that gave it said, since a task of the other hand has that one. */
export interface Renumbered {
  readonly task: string;
  readonly was: string;
  readonly is: string;
}

/**
 * `plan` with a number of its own for every task that has one in `theirs`: where a task of mine has it, mine keeps it. A number that one hand
 * gave twice is a fault of that hand, and stays.
 */
export function withOwnNumbers(
  plan: Plan,
  mine: Plan,
  theirs: Plan,
): { readonly plan: Plan; readonly renumbered: readonly Renumbered[] } {
  const folded = (number: string | undefined): string | undefined => number?.toUpperCase();
  const own = new Map(mine.tasks.map(({ id, number }) => [id, number]));
  const isMine = ({ id, number }: Plan["tasks"][number]): boolean => number === own.get(id);
  const twice = (number: string | undefined): boolean =>
    theirs.tasks.filter((one) => folded(one.number) === folded(number)).length > 1;
  const taken = new Set(plan.tasks.filter(isMine).map(({ number }) => folded(number)));
  const tasks = [...plan.tasks];
  const renumbered: Renumbered[] = [];
  tasks.forEach((task, k) => {
    if (task.number === undefined || isMine(task) || twice(task.number)) return;
    if (taken.has(folded(task.number))) {
      const is = freshNumber(tasks);
      renumbered.push({ task: task.id, was: task.number, is });
      tasks[k] = { ...task, number: is };
    }
    taken.add(folded(tasks[k]!.number));
  });
  return { plan: renumbered.length === 0 ? plan : { ...plan, tasks }, renumbered };
}

function thingsIn(plan: Plan, list: string): ReadonlyMap<string, unknown> {
  const things = list.split(".").reduce<unknown>((at, step) => (isRecord(at) ? at[step] : undefined), plan);
  return new Map((things as readonly { readonly id: string }[]).map((one) => [one.id, one]));
}

/** What a variant gives up it gives up of the things under their other ids. */
function withGivenUp(plan: Plan, patterns: readonly Pattern[], rename: Rename): Plan {
  const variants = plan.variants.map((variant) => {
    const { givesUp } = variant;
    if (!givesUp) return variant;
    return { ...variant, givesUp: { ...givesUp, patch: [...renamedPatch(givesUp.patch, patterns, rename)] } };
  });
  return { ...plan, variants } as Plan;
}

/** What is said of tasks is said of them under their other ids. */
function withRemarks(plan: Plan, rename: Rename): Plan {
  const of = <One extends Plan["comments"][number] | Plan["signoffs"][number]>(one: One): One =>
    one.about.kind === "task" ? { ...one, about: { ...one.about, id: rename(one.about.id) } } : one;
  return { ...plan, comments: plan.comments.map(of), signoffs: plan.signoffs.map(of) };
}
