import { duration, instant } from "../kernel/index.ts";
import { type Eva, type Placement, type Plan, type Task, tasksById } from "../plan/index.ts";
import { taskSchema } from "../plan/task.ts";
import type { Facts } from "./facts.ts";
import { homeS, leaveS } from "./airlock.ts";
import type { ProjectedPlacement } from "./projection.ts";
import type { Between, Stay } from "./between.ts";
import { landerOf } from "./walking.ts";

/** Ids of what stands for time outside that belongs to no task of the plan begin with this: no id of a plan holds a colon. */
const MARK = "rehearsed:";

/** True for a task that only marks time outside. */
export function isMark(task: string): boolean {
  return task.startsWith(MARK);
}

/** A task that stands for such time, and where it lies. */
export interface Mark {
  readonly task: Task;
  readonly placement: Placement;
}

/**
 * Time outside that no task of the plan tells of. Egress and ingress follow from the tasks, so an EVA that went out before its first task
 * asked for it, or came in after its last one let it, gets a second of rest at the hatch there; and work that was given
 * up halfway stays work.
 */
export function marksOf(
  plan: Plan,
  facts: Facts,
  placements: readonly ProjectedPlacement[],
  between: Between,
): readonly Mark[] {
  const lander = landerOf(plan);
  const tasks = tasksById(plan);
  const marks: Mark[] = [];
  for (const [i, eva] of plan.evas.entries()) {
    const outS = facts.outS.get(eva.id);
    const inS = facts.inS.get(eva.id);
    if (outS !== undefined && outS < leaveS(plan, eva, placements, between))
      marks.push(airlockMark(eva, `out-${i}`, outS + eva.egressWorkS, lander));
    if (inS !== undefined && inS > homeS(plan, eva, placements, between))
      marks.push(airlockMark(eva, `in-${i}`, inS - eva.ingressWorkS, lander));
  }
  between.stays.forEach((stay, k) => {
    const task = tasks.get(stay.task ?? "");
    if (!task) marks.push(restMark(stay, k));
    else marks.push(partMark(task, stay, plan.tasks.indexOf(task)));
  });
  return marks;
}

/** What was done of a task that was given up, or all of one whose result is lost. */
function partMark(task: Task, { eva, crew, place, endPlace, startS, endS, whole }: Stay, nth: number): Mark {
  const rest = unasking(task);
  delete rest.sample;
  delete rest.endPlace;
  const part = whole ? 1 : (endS - startS) / Math.max(1, task.duration.likelyS);
  const gone: Task = {
    ...rest,
    id: `${MARK}part-${nth}`,
    name: `${task.name}, ${whole ? "its result lost" : "given up"}`.slice(0, 120),
    ...(endPlace === place || endPlace === undefined ? {} : { endPlace }),
    walkM: Math.min(1, part) * task.walkM,
    worth: 0,
    must: false,
    instrument: false,
  };
  return mark(gone, { task: gone.id, eva, crew: [...crew], startS: instant(startS) }, startS, endS - startS);
}

/** Where a way was broken off. */
function restMark({ eva, crew, place, startS }: Stay, nth: number): Mark {
  const task = restTask(`${MARK}turn-${nth}`, "On the way", place, crew);
  return mark(task, { task: task.id, eva, crew: [...crew], startS: instant(startS) }, startS, 0);
}

function airlockMark(eva: Eva, nth: string, startS: number, lander: string | undefined): Mark {
  const task = restTask(`${MARK}${nth}`, eva.name, lander, eva.crew);
  return mark(task, { task: task.id, eva: eva.id, crew: [...eva.crew], startS: instant(startS) }, startS, 0);
}

function restTask(id: string, name: string, place: string | undefined, crew: readonly string[]): Task {
  const task = taskSchema.parse({
    id: "mark",
    name,
    kind: "upkeep",
    duration: { likelyS: 0 },
    crew: { count: crew.length, named: [...crew] },
    effort: "rest",
  });
  return { ...task, id, ...(place === undefined ? {} : { place }) };
}

function mark(task: Task, from: Placement, startS: number, lengthS: number): Mark {
  const placement = { ...from, task: task.id, startS: instant(startS) };
  return { task: { ...task, duration: { likelyS: duration(lengthS) }, pin: pinAt(placement) }, placement };
}

/** What holds a placement where it is. */
export function pinAt({ startS, eva, crew }: Placement): NonNullable<Task["pin"]> {
  return { startS: instant(startS), crew: [...crew], ...(eva === null ? {} : { eva }) };
}

/** A task that may be at any time. */
export function unasking(task: Task): Task {
  const rest: Task = { ...task, windows: [], relay: false };
  delete rest.pet;
  delete rest.sun;
  delete rest.light;
  delete rest.sunAngle;
  return rest;
}
