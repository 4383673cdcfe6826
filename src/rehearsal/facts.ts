import { type Placement, type Plan, type Schedule, type Task, tasksById } from "../plan/index.ts";
import { placeName } from "../words/index.ts";
import type { Call, Reading } from "./call.ts";

/** Work that had begun and will not count as done, and what it was placed as. Times are MET, s. */
export interface Stopped {
  readonly startS: number;
  readonly endS: number;
  /** True where it was worked at to its end and only its result is lost. */
  readonly whole: boolean;
  readonly placement: Placement;
}

/** What the calls say, taken together: nothing is worked out yet. */
export interface Facts {
  readonly began: ReadonlyMap<string, number>;
  readonly ended: ReadonlyMap<string, number>;
  /** Tasks that will not be done, and why in words. */
  readonly leftOut: ReadonlyMap<string, string>;
  /** Those of them that had begun. */
  readonly stopped: ReadonlyMap<string, Stopped>;
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
  const reader = new CallReader(plan);
  for (const call of calls) reader.read(call);
  return reader;
}

/** The facts as far as they have been read. */
export class CallReader implements Facts {
  readonly began = new Map<string, number>();
  readonly ended = new Map<string, number>();
  readonly leftOut = new Map<string, string>();
  readonly stopped = new Map<string, Stopped>();
  readonly outS = new Map<string, number>();
  readonly inS = new Map<string, number>();
  readonly lengthS: Map<string, number>;
  readonly backByS = new Map<string, number>();
  readonly broken = new Map<string, number>();
  readonly lostPasses = new Map<string, number>();
  readonly readings: Reading[] = [];
  holdS = -Infinity;
  schedule: Schedule;
  readonly #plan: Plan;
  readonly #tasks: ReadonlyMap<string, Task>;

  constructor(plan: Plan) {
    this.#plan = plan;
    this.#tasks = tasksById(plan);
    this.lengthS = new Map(plan.tasks.map((task) => [task.id, task.duration.likelyS]));
    this.schedule = plan.schedule;
  }

  read(call: Call): void {
    switch (call.kind) {
      case "out":
        return first(this.outS, call.eva, call.atS);
      case "in":
        return void (this.outS.has(call.eva) && this.inS.set(call.eva, call.atS));
      case "begins":
        return void (this.#toCome(call.task) && this.began.set(call.task, call.atS));
      case "ends":
        return void (this.#underWay(call.task) && this.ended.set(call.task, call.atS));
      case "left-out":
        return void (this.#open(call.task) && this.#giveUp(call.task, "given up", call.atS));
      case "spoilt":
        return void (
          this.#underWay(call.task) && this.#giveUp(call.task, "its result is lost", call.atS, true)
        );
      case "longer":
        return void (this.#open(call.task) && this.#lasts(call.task, (lengthS) => lengthS + call.byS));
      case "hold":
        this.holdS = Math.max(this.holdS, call.untilS);
        return;
      case "slower":
        return this.#slower(call.crew, call.percent);
      case "reading":
        this.readings.push(call);
        return;
      case "back-by":
        this.backByS.set(call.eva, call.byS);
        return;
      case "broken":
        return this.#broken(call.equipment, call.count, call.atS);
      case "no-relay":
        return first(this.lostPasses, call.pass, call.atS);
      case "closed":
        return this.#closed(call.place, call.atS);
      case "replanned":
        this.schedule = call.schedule;
        return;
      case "note":
    }
  }

  #open(task: string): boolean {
    return this.#tasks.has(task) && !this.leftOut.has(task) && !this.ended.has(task);
  }

  #toCome(task: string): boolean {
    return this.#open(task) && !this.began.has(task);
  }

  #underWay(task: string): boolean {
    return this.#open(task) && this.began.has(task);
  }

  /** Another expected length for a task that the plan has, whole seconds, from a second to ten years, as long as a plan can say. */
  #lasts(task: string, next: (lengthS: number) => number): void {
    const lengthS = this.lengthS.get(task);
    if (lengthS !== undefined) this.lengthS.set(task, Math.min(LONGEST_S, Math.max(1, next(lengthS))));
  }

  #slower(crew: string, percent: number): void {
    for (const { task, crew: doing } of this.schedule.placements) {
      if (doing.includes(crew) && this.#toCome(task))
        this.#lasts(task, (lengthS) => Math.ceil((lengthS * percent) / 100));
    }
  }

  /** So many more of an equipment are of no use; what asks for more than is left is given up. */
  #broken(id: string, count: number, atS: number): void {
    const broken = (this.broken.get(id) ?? 0) + count;
    this.broken.set(id, broken);
    const equipment = this.#plan.equipment.find((one) => one.id === id);
    if (!equipment) return;
    for (const task of this.#plan.tasks) {
      const needed = task.equipment.find((one) => one.equipment === id)?.count ?? 0;
      if (needed > Math.max(0, equipment.count - broken) && this.#toCome(task.id))
        this.#giveUp(task.id, `${equipment.name} is out of use`, atS);
    }
  }

  #closed(place: string, atS: number): void {
    for (const task of this.#plan.tasks)
      if (visits(task, place) && this.#toCome(task.id))
        this.#giveUp(task.id, `${placeName(this.#plan, place)} is closed`, atS);
  }

  /** Gives a task up, and what can only be done with it and has not begun. `whole`: it was worked at to its end. */
  #giveUp(id: string, why: string, atS: number, whole = false): void {
    this.leftOut.set(id, why);
    const startS = this.began.get(id);
    const placement = this.schedule.placements.find((one) => one.task === id);
    if (startS !== undefined && placement)
      this.stopped.set(id, { startS, endS: Math.max(startS, atS), whole, placement });
    this.began.delete(id);
    const name = this.#tasks.get(id)?.name ?? id;
    for (const link of this.#plan.links) {
      if (link.type !== "lag" || link.needs === "none") continue;
      const [from, to] = [link.from.task, link.to.task];
      if (from === id && this.#toCome(to)) this.#giveUp(to, `it needs ${name}`, atS);
      if (link.needs === "both" && to === id && this.#toCome(from))
        this.#giveUp(from, `it is not done without ${name}`, atS);
    }
  }
}

/** Ten years, s. */
const LONGEST_S = 315_360_000;

/** Keeps the first that was said of it. */
function first(into: Map<string, number>, what: string, atS: number): void {
  if (!into.has(what)) into.set(what, atS);
}

function visits(task: Task, place: string): boolean {
  return task.place === place || task.endPlace === place;
}
