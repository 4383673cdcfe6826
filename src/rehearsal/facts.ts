import type { Placement, Plan, Schedule, Task } from "../plan/index.ts";
import type { Call, Reading } from "./call.ts";

/** What the calls say, taken together: nothing is worked out yet. */
export interface Facts {
  readonly began: ReadonlyMap<string, number>;
  readonly ended: ReadonlyMap<string, number>;
  /** Tasks that will not be done, and why in words. */
  readonly leftOut: ReadonlyMap<string, string>;
  /** Those that had begun when they were given up: when they had, when they were, and what they were placed as. */
  readonly stopped: ReadonlyMap<
    string,
    { readonly startS: number; readonly endS: number; readonly placement: Placement }
  >;
  readonly outS: ReadonlyMap<string, number>;
  readonly inS: ReadonlyMap<string, number>;
  /** How long each task is now expected to take, s. */
  readonly lengthS: ReadonlyMap<string, number>;
  readonly holdS: number;
  readonly backByS: ReadonlyMap<string, number>;
  readonly broken: ReadonlyMap<string, number>;
  /** Relay passes by id, and when they were lost. */
  readonly lostPasses: ReadonlyMap<string, number>;
  readonly readings: readonly Reading[];
  /** The schedule that holds for what is to come: the plan's own, or the last one it was replanned by. */
  readonly schedule: Schedule;
}

/**
 * Reads the calls in their order. Whatever cannot be (the end of a task that never began, a task that the plan does not
 * have) is passed over, so that a plan that has changed since still opens its rehearsal.
 */
export function factsOf(plan: Plan, calls: readonly Call[]): Facts {
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
  const began = new Map<string, number>();
  const ended = new Map<string, number>();
  const leftOut = new Map<string, string>();
  const stopped = new Map<string, { startS: number; endS: number; placement: Placement }>();
  const outS = new Map<string, number>();
  const inS = new Map<string, number>();
  const lengthS = new Map(plan.tasks.map((task): [string, number] => [task.id, task.duration.likelyS]));
  const backByS = new Map<string, number>();
  const broken = new Map<string, number>();
  const lostPasses = new Map<string, number>();
  const readings: Reading[] = [];
  let holdS = -Infinity;
  let schedule = plan.schedule;
  const open = (task: string): boolean => tasks.has(task) && !leftOut.has(task) && !ended.has(task);

  for (const call of calls) {
    switch (call.kind) {
      case "out":
        if (!outS.has(call.eva)) outS.set(call.eva, call.atS);
        break;
      case "in":
        if (outS.has(call.eva)) inS.set(call.eva, call.atS);
        break;
      case "begins":
        if (open(call.task) && !began.has(call.task)) began.set(call.task, call.atS);
        break;
      case "ends":
        if (open(call.task) && began.has(call.task)) ended.set(call.task, call.atS);
        break;
      case "left-out":
        if (open(call.task)) giveUp(call.task, "given up", call.atS);
        break;
      case "longer":
        if (open(call.task)) lengthS.set(call.task, Math.max(1, lengthS.get(call.task)! + call.byS));
        break;
      case "hold":
        holdS = Math.max(holdS, call.untilS);
        break;
      case "slower":
        for (const spot of schedule.placements) {
          if (!spot.crew.includes(call.crew) || began.has(spot.task) || !open(spot.task)) continue;
          lengthS.set(spot.task, Math.max(1, Math.ceil((lengthS.get(spot.task)! * call.percent) / 100)));
        }
        break;
      case "reading":
        readings.push(call);
        break;
      case "back-by":
        backByS.set(call.eva, call.byS);
        break;
      case "broken":
        broken.set(call.equipment, (broken.get(call.equipment) ?? 0) + call.count);
        leaveWithout(call.equipment, call.atS);
        break;
      case "no-relay":
        if (!lostPasses.has(call.pass)) lostPasses.set(call.pass, call.atS);
        break;
      case "closed":
        for (const task of plan.tasks)
          if (visits(task, call.place) && toCome(task.id))
            giveUp(task.id, `${placeName(plan, call.place)} is closed`, call.atS);
        break;
      case "replanned":
        schedule = call.schedule;
        break;
      case "note":
        break;
    }
  }
  return {
    began,
    ended,
    leftOut,
    stopped,
    outS,
    inS,
    lengthS,
    holdS,
    backByS,
    broken,
    lostPasses,
    readings,
    schedule,
  };

  function toCome(task: string): boolean {
    return open(task) && !began.has(task);
  }

  /** Gives a task up, and what can only be done with it and has not begun. */
  function giveUp(id: string, why: string, atS: number): void {
    leftOut.set(id, why);
    const startS = began.get(id);
    const placement = schedule.placements.find((one) => one.task === id);
    if (startS !== undefined && placement)
      stopped.set(id, { startS, endS: Math.max(startS, atS), placement });
    began.delete(id);
    const name = tasks.get(id)?.name ?? id;
    for (const link of plan.links) {
      if (link.type !== "lag" || link.needs === "none") continue;
      if (link.from.task === id && toCome(link.to.task)) giveUp(link.to.task, `it needs ${name}`, atS);
      if (link.needs === "both" && link.to.task === id && toCome(link.from.task))
        giveUp(link.from.task, `it is not done without ${name}`, atS);
    }
  }

  /** Gives up what asks for more of an equipment than is left. */
  function leaveWithout(id: string, atS: number): void {
    const equipment = plan.equipment.find((one) => one.id === id);
    if (!equipment) return;
    const left = equipment.count - broken.get(id)!;
    for (const task of plan.tasks) {
      const asks = task.equipment.find((one) => one.equipment === id)?.count ?? 0;
      if (asks > left && asks > 0 && toCome(task.id)) giveUp(task.id, `${equipment.name} is out of use`, atS);
    }
  }
}

function visits(task: Task, place: string): boolean {
  return task.place === place || task.endPlace === place;
}

function placeName(plan: Plan, place: string): string {
  return plan.site.places.find((one) => one.id === place)?.name ?? place;
}
