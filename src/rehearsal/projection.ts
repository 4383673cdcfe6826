import { type LagLink, type Placement, type Plan, suitIdOn, type Task, tasksById } from "../plan/index.ts";
import type { Facts } from "./facts.ts";
import type { Between, Stay } from "./between.ts";
import { landerOf, type RehearsedWays, wayS } from "./walking.ts";

/** A task on the day as it has gone and will go. */
export interface ProjectedPlacement extends Placement {
  readonly state: "done" | "under way" | "to come";
  readonly endS: number;
}

/** How a crew goes on that acts; without it everybody carries on. */
export interface Going {
  /** Tasks that are begun as soon as they can be, not only when planned. */
  readonly early: ReadonlySet<string>;
  /** When an EVA goes out at the soonest, by EVA, whatever is given up of its first work: time outside is counted from there. */
  readonly soonestOutS: ReadonlyMap<string, number>;
  /** `startS`, or later where one of the crew has to rest first. */
  readonly rested: (
    placement: Placement,
    task: Task,
    startS: number,
    placements: readonly ProjectedPlacement[],
  ) => number;
}

/**
 * How the day goes on from `nowS` if everybody carries on: what is done and under way stands as it was called, and what is to come
 * follows in its order, never before it was planned and never before now.
 *
 * A task begins when its crew are free and have walked there, what it must come after is so far back as it should be, its equipment is
 * free and a window or pass is open that is still long enough; where none is left it begins without, and the judge tells. An EVA that
 * has not begun goes out in time for its first task. Nothing is left out here: that is for the crew trainer or a new plan.
 */
export function projected(
  plan: Plan,
  facts: Facts,
  between: Between,
  nowS: number,
  going: Going | null = null,
): readonly ProjectedPlacement[] {
  const tasks = tasksById(plan);
  const placements = new Map(calledOut(tasks, facts, nowS).map((placement) => [placement.task, placement]));
  const crews = new Crews(plan, facts, nowS, between.ways, going?.soonestOutS);
  for (const placement of [...placements.values()].toSorted((a, b) => a.startS - b.startS))
    crews.goes(placement, tasks.get(placement.task)!);
  for (const stay of between.stays) crews.stays(stay);

  const ahead = facts.schedule.placements
    .filter(
      ({ task, eva }) =>
        tasks.has(task) && !facts.began.has(task) && !facts.leftOut.has(task) && !isIn(facts, eva),
    )
    .toSorted((a, b) => a.startS - b.startS);
  for (const placement of ahead) {
    const task = tasks.get(placement.task)!;
    const lengthS = facts.lengthS.get(task.id)!;
    const early = going?.early.has(task.id) === true;
    const freeS = Math.max(early ? nowS : placement.startS, nowS, facts.holdS, crews.freeS(placement, task));
    const startS = startFrom(freeS, placement, task, early);
    const placed: ProjectedPlacement = {
      ...placement,
      startS: startS as Placement["startS"],
      state: "to come",
      endS: startS + lengthS,
    };
    placements.set(task.id, placed);
    crews.goes(placed, task);
  }
  return [...placements.values()];

  /** The first start from `freeS` on at which all that the task waits for is there. */
  function startFrom(freeS: number, placement: Placement, task: Task, early: boolean): number {
    const lengthS = facts.lengthS.get(task.id)!;
    let startS = Math.max(freeS, afterLinks(plan.links, task, lengthS, placements));
    // Equipment and windows push each other; a day has few of either.
    for (let last = -1; last !== startS;) {
      last = startS;
      startS = opening(plan, task, lengthS, startS, facts, early ? placement.startS : -Infinity);
      const outS = placement.eva === null ? undefined : facts.outS.get(placement.eva);
      if (task.pet && outS !== undefined) startS = Math.max(startS, outS + (task.pet.startS ?? 0));
      startS = unused(plan, task, lengthS, startS, placements, tasks, facts);
      if (going) startS = going.rested(placement, task, startS, [...placements.values()]);
    }
    return startS;
  }
}

/** What is done and under way, as it was called. */
function calledOut(
  tasks: ReadonlyMap<string, Task>,
  facts: Facts,
  nowS: number,
): readonly ProjectedPlacement[] {
  return facts.schedule.placements.flatMap((placement): ProjectedPlacement[] => {
    const startS = facts.began.get(placement.task);
    if (startS === undefined || !tasks.has(placement.task)) return [];
    const endS = facts.ended.get(placement.task);
    const dueS = startS + facts.lengthS.get(placement.task)!;
    return [
      {
        ...placement,
        startS: startS as Placement["startS"],
        state: endS === undefined ? "under way" : "done",
        endS: Math.max(startS + 1, endS ?? Math.max(dueS, nowS)),
      },
    ];
  });
}

/** True for an EVA that is over: what was still to come on it stays undone, until it is put on another one. */
function isIn(facts: Facts, eva: string | null): boolean {
  return eva !== null && facts.inS.has(eva);
}

/** Where each crew member is on each EVA, and from when on free. */
class Crews {
  private readonly at = new Map<
    string,
    Map<string, { readonly freeS: number; readonly place: string | undefined }>
  >();
  private readonly plan: Plan;
  private readonly facts: Facts;
  private readonly nowS: number;
  private readonly ways: RehearsedWays;
  private readonly lander: string | undefined;
  private readonly soonestOutS: ReadonlyMap<string, number> | undefined;

  constructor(
    plan: Plan,
    facts: Facts,
    nowS: number,
    ways: RehearsedWays,
    soonestOutS: ReadonlyMap<string, number> | undefined,
  ) {
    this.plan = plan;
    this.facts = facts;
    this.nowS = nowS;
    this.ways = ways;
    this.lander = landerOf(plan);
    this.soonestOutS = soonestOutS;
  }

  /** The earliest start at which all of the crew can be there. */
  freeS(placement: Placement, task: Task): number {
    return Math.max(
      -Infinity,
      ...placement.crew.map((member) => this.there(member, placement.eva, task.place)),
    );
  }

  /** The crew do the task and are then where it ends. */
  goes(placement: ProjectedPlacement, task: Task): void {
    for (const member of placement.crew)
      this.put(member, placement.eva, placement.endS, task.endPlace ?? task.place);
  }

  /** Who was somewhere between is there, unless they have gone on. */
  stays({ eva, crew, startS, endS, endPlace }: Stay): void {
    for (const member of crew) {
      const known = this.at.get(member)?.get(eva ?? "");
      if (!known || known.freeS <= startS) this.put(member, eva, endS, endPlace);
    }
  }

  private put(member: string, eva: string | null, freeS: number, place: string | undefined): void {
    let own = this.at.get(member);
    if (!own) this.at.set(member, (own = new Map()));
    own.set(eva ?? "", { freeS, place });
  }

  private there(member: string, id: string | null, place: string | undefined): number {
    const known = this.at.get(member)?.get(id ?? "");
    if (known) return known.freeS + wayS(this.ways, known.place, place);
    const eva = this.plan.evas.find((one) => one.id === id);
    if (!eva) return -Infinity;
    const outS =
      this.facts.outS.get(eva.id) ??
      Math.max(
        this.nowS,
        eva.earliestEgressS,
        this.soonestOutS?.get(eva.id) ?? -Infinity,
        this.rechargedS(member, eva),
      );
    return outS + eva.egressWorkS + wayS(this.ways, this.lander, place);
  }

  /** From when on a crew member and the suit they wear on `next`, out on other EVAs before (the suit with whoever wore it), are good for it. */
  private rechargedS(member: string, next: Plan["evas"][number]): number {
    const { leastS } = this.plan.rules.recharge;
    const suit = suitIdOn(this.plan, next, member);
    const outings = [...this.at].flatMap(([who, own]) =>
      [...own].map(([id, last]) => ({ who, id, ...last })),
    );
    const backS = outings.map(({ who, id, freeS, place }) => {
      const eva = this.plan.evas.find((one) => one.id === id);
      if (!eva || (who !== member && suitIdOn(this.plan, eva, who) !== suit)) return -Infinity;
      const inS = this.facts.inS.get(id) ?? freeS + wayS(this.ways, place, this.lander) + eva.ingressWorkS;
      return inS + leastS;
    });
    return Math.max(-Infinity, ...backS);
  }
}

/** The earliest start that the least lags after what already stands allow. */
function afterLinks(
  links: Plan["links"],
  task: Task,
  lengthS: number,
  placements: ReadonlyMap<string, ProjectedPlacement>,
): number {
  const bounds = links
    .filter((link): link is LagLink => link.type === "lag" && link.to.task === task.id)
    .map(({ from, to, leastS }) => {
      const before = placements.get(from.task);
      if (!before || leastS === undefined) return -Infinity;
      const fromS = from.end === "start" ? before.startS : before.endS;
      return fromS + leastS - (to.end === "end" ? lengthS : 0);
    });
  return Math.max(-Infinity, ...bounds);
}

/**
 * `startS`, or later where the task's next window or pass opens; as it is where none is left. None counts in which it would have to begin
 * before `plannedS`: nobody goes ahead into an earlier one.
 */
function opening(
  plan: Plan,
  task: Task,
  lengthS: number,
  startS: number,
  facts: Facts,
  plannedS: number,
): number {
  const passes = task.relay && !plan.stay.earthLink ? passesLeft(plan, facts) : null;
  return [task.windows.length > 0 ? task.windows : null, passes].reduce((fromS, spans) => {
    if (spans === null) return fromS;
    const starts = spans
      .filter(
        (span) => span.endS - lengthS >= Math.max(fromS, span.startS) && span.endS - lengthS >= plannedS,
      )
      .map((span) => Math.max(fromS, span.startS));
    return starts.length === 0 ? fromS : Math.min(...starts);
  }, startS);
}

/** The relay passes with those that were lost, as far as they had come. */
export function passesLeft(plan: Plan, facts: Facts): Plan["stay"]["relayPasses"] {
  return plan.stay.relayPasses.flatMap((pass) => {
    const lostS = facts.lostPasses.get(pass.id);
    if (lostS === undefined || lostS >= pass.endS) return [pass];
    return lostS > pass.startS ? [{ ...pass, endS: lostS as typeof pass.endS }] : [];
  });
}

/** `startS`, or later where the task's equipment is in use. */
function unused(
  plan: Plan,
  task: Task,
  lengthS: number,
  startS: number,
  placements: ReadonlyMap<string, ProjectedPlacement>,
  tasks: ReadonlyMap<string, Task>,
  facts: Facts,
): number {
  let fromS = startS;
  for (const { equipment, count } of task.equipment) {
    const all = plan.equipment.find((one) => one.id === equipment)?.count ?? 0;
    const most = all - (facts.broken.get(equipment) ?? 0);
    const users = [...placements.values()].flatMap((placement) => {
      const needs =
        tasks.get(placement.task)?.equipment.find((one) => one.equipment === equipment)?.count ?? 0;
      return needs > 0 && placement.task !== task.id
        ? [{ startS: placement.startS, endS: placement.endS, needs }]
        : [];
    });
    for (;;) {
      const here = users.filter((one) => one.startS < fromS + lengthS && one.endS > fromS);
      if (here.length === 0 || here.reduce((sum, one) => sum + one.needs, count) <= most) break;
      fromS = Math.min(...here.map((one) => one.endS));
    }
  }
  return fromS;
}
