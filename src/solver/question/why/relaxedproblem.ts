import type { CauseKind } from "../../../answers/index.ts";
import { duration, keysOf } from "../../../kernel/index.ts";
import { FASTEST_MS } from "../../../physics/index.ts";
import { leavesInstrument, type Plan, type Task } from "../../../plan/index.ts";
import { choosing } from "../../problem/choices.ts";
import { type LegTable, legTableOf } from "../../problem/ground.ts";
import { type Opening, openingsOf } from "../../problem/openings.ts";
import { gapsOf, longestOf, rechargeEdges, routesOf } from "../../problem/outings.ts";
import { edgeList, relationsOf } from "../../problem/relations.ts";
import { openingsFrom, startsIn } from "../../problem/starts.ts";
import { KINDS, NEVER, type Limits, type Loads, type Problem } from "../../problem/problem.ts";
import { type Cause, keyOf, walksTooFast } from "./cause.ts";
import { changed } from "../../problem/changed.ts";

/** Sooner and later than any plan, s; sums stay far from NEVER. */
const FAR_S = 100_000_000;

/** By what bears on when a task may start: the task as if it did not ask for that. */
const WITHOUT = {
  window: { windows: [] },
  sun: { sun: undefined },
  light: { light: undefined },
  "sun-angle": { sunAngle: undefined },
  relay: { relay: false },
  pin: { pin: undefined },
} satisfies Partial<Record<CauseKind, Partial<Task>>>;

/** Says whether a cause holds; those that do not are lifted. */
export type CauseTest = (kind: CauseKind, about: number) => boolean;

/** The causes of a list hold, all others are lifted. */
export function onlyCauses(causes: readonly Cause[]): CauseTest {
  const keys = new Set(causes.map(keyOf));
  return (kind, about) => keys.has(keyOf({ kind, about }));
}

/**
 * A compiled problem with causes lifted: the same nodes and places, bounds away. What does not depend on what is lifted is
 * shared, so that many relaxed problems of one cost little.
 */
export class RelaxedProblem {
  readonly problem: Problem;
  private readonly routes;
  private readonly openingOf: (task: Task) => Opening[];
  private readonly windows = new Map<string, readonly Opening[]>();
  private readonly choices = new Map<string, readonly (readonly number[])[]>();
  private readonly grounds = new Map<boolean, LegTable>();

  constructor(problem: Problem) {
    this.problem = problem;
    this.routes = routesOf(problem.plan);
    this.openingOf = openingsOf(problem.plan);
  }

  /** The problem under what `holds`; placements are not its business. Never of reach "slack". */
  under(holds: CauseTest): Problem {
    const { problem } = this;
    const { plan } = problem;
    const lenient = relaxedPlan(plan, holds);
    const bound = this.groundFor(holds("walk-back-emergency", 0));
    const ground = { ...bound, mayFly: (e: number) => !holds("suit", e) || bound.mayFly(e) };
    const windows = plan.tasks.map((_, a) => this.windowsUnder(a, holds));
    const choices = plan.tasks.map((_, a) => this.choicesUnder(a, lenient, ground, holds));
    return changed(problem, {
      windows: openingsFrom(windows),
      ...openingsFrom(
        plan.tasks.map((task, a) => startsIn(windows[a]!, problem.gridS, task, problem.givenS.get(a))),
      ),
      choiceStart: starts(choices),
      choiceAt: starts(choices.flat()),
      choiceRoutes: Int32Array.from(choices.flat(2)),
      legS: this.routes.map((_, r) => ground.legS[r]!),
      ...chainsUnder(problem, holds),
      ...outingsUnder(problem, lenient, holds),
      ...relationsUnder(problem, lenient),
      draws: drawsUnder(problem, holds),
      heat: holds("heat", 0) ? problem.heat : null,
      limits: limitsUnder(problem.limits, holds),
      loads: loadsUnder(problem.loads, holds),
      pet: problem.pet && {
        ...problem.pet,
        fromS: problem.pet.fromS.map((fromS, a) => (holds("pet", a) ? fromS : -NEVER)),
        toS: problem.pet.toS.map((toS, a) => (holds("pet", a) ? toS : NEVER)),
      },
      groups: problem.groups && {
        ...problem.groups,
        most: problem.groups.most.map((most, g) => (holds("group", g) ? most : NEVER)),
      },
      checkLevel: problem.checkLevel === "slack" ? "network" : problem.checkLevel,
    });
  }

  private groundFor(bound: boolean): LegTable {
    let ground = this.grounds.get(bound);
    if (!ground) {
      ground = legTableOf(this.problem.plan, !bound);
      this.grounds.set(bound, ground);
    }
    return ground;
  }

  private windowsUnder(a: number, holds: CauseTest): readonly Opening[] {
    const task = this.problem.plan.tasks[a]!;
    const lifted = keysOf(WITHOUT).filter((kind) => !holds(kind, a));
    const inStay = task.crew.count > 0 || holds("liftoff", 0);
    const key = `${a} ${lifted.join(" ")} ${Number(inStay)}`;
    let known = this.windows.get(key);
    if (!known) {
      const easy: Task = lifted.reduce((one, kind) => ({ ...one, ...WITHOUT[kind] }), task);
      known = this.openingOf(inStay ? easy : { ...easy, crew: { ...task.crew, count: 1 } });
      this.windows.set(key, known);
    }
    return known;
  }

  private choicesUnder(
    a: number,
    lenient: Plan,
    ground: LegTable,
    holds: CauseTest,
  ): readonly (readonly number[])[] {
    const { plan } = this.problem;
    const task = plan.tasks[a]!;
    const needed = plan.equipment.map((_, q) => equipmentNeeded(this.problem, a, q));
    const key = [
      a,
      ...(["pin", "crew", "blast", "carry"] as const).map((kind) => Number(holds(kind, a))),
      Number(holds("walking-physics", 0)),
      Number(holds("walk-back-emergency", 0)),
      Number(holds("work", 0)),
      ...plan.evas.map((_, e) => Number(holds("suit", e))),
      ...plan.site.keepOuts.map((_, k) => Number(holds("hot", k))),
      ...needed.map((count, q) => Number(count > plan.equipment[q]!.count && holds("equipment", q))),
    ].join(" ");
    let known = this.choices.get(key);
    if (!known) {
      const short = needed.some((count, q) => count > plan.equipment[q]!.count && holds("equipment", q));
      const easy: Task = {
        ...task,
        pin: holds("pin", a) ? task.pin : undefined,
        crew: holds("crew", a) ? task.crew : { count: task.crew.count, named: [] },
        instrument: leavesInstrument(task) && holds("blast", a),
        massOutKg: holds("carry", a) ? task.massOutKg : 0,
        // As if nothing were walked in it.
        ...(holds("walking-physics", 0) || !walksTooFast(this.problem, a)
          ? {}
          : { walkM: 0, endPlace: undefined }),
      };
      const tasks = [...lenient.tasks];
      tasks[a] = easy;
      known = short ? [] : choosing({ ...lenient, tasks }, ground, this.routes)(a);
      this.choices.set(key, known);
    }
    return known;
  }
}

/**
 * Less than `problem` asks for, but exact for a given order: only what the temporal network, the sums of an order and single
 * units decide. What has no solution in an order under this has none at all in that order.
 */
export function provable(problem: Problem): Problem {
  const several = (_: CauseKind, q: number): boolean => (problem.equipmentCount[q] ?? 1) <= 1;
  return changed(problem, {
    ...chainsUnder(problem, several),
    draws: { ...problem.draws, walkbackBinds: new Uint8Array(KINDS) },
    limits: { ...problem.limits, apartM: Infinity, workS: Infinity, dutyS: Infinity, storesBind: false },
    heat: null,
    pet: null,
    checkLevel: "network",
  });
}

/** The plan with lifted causes taken out where they are the plan's to say; lists keep their length. */
function relaxedPlan(plan: Plan, holds: CauseTest): Plan {
  const { rules, stay } = plan;
  const everybody = plan.tasks.map((task) => task.id);
  const slower = <T extends { speedMs: number }>(rule: T): T => ({
    ...rule,
    speedMs: Math.min(rule.speedMs, FASTEST_MS),
  });
  const level = (kind: CauseKind): "breach" | "warning" => (holds(kind, 0) ? "breach" : "warning");
  const milder = <T extends { level: "breach" | "warning" }>(rule: T, kind: CauseKind): T =>
    rule.level === "warning" ? rule : { ...rule, level: level(kind) };
  return {
    ...plan,
    links: plan.links.map((link, l) => {
      if (holds("link", l)) return link;
      const [from, to] = link.type === "lag" ? [link.from.task, link.to.task] : link.tasks;
      const end = "start" as const;
      return { id: link.id, type: "lag", from: { task: from, end }, to: { task: to, end }, needs: "none" };
    }),
    site: {
      ...plan.site,
      keepOuts: plan.site.keepOuts.map((one, k) =>
        one.kind !== "hot" || holds("hot", k) ? one : { ...one, exemptTasks: everybody },
      ),
    },
    stay: {
      ...stay,
      lengthS: (holds("liftoff", 0) ? stay.lengthS : FAR_S) as typeof stay.lengthS,
      blocks: stay.blocks.filter((_, k) => holds("block", k)),
    },
    evas: plan.evas.map((eva, e) => ({
      ...eva,
      earliestEgressS: (holds("egress", e) ? eva.earliestEgressS : -FAR_S) as typeof eva.earliestEgressS,
      latestIngressS: (holds("ingress", e) ? eva.latestIngressS : FAR_S) as typeof eva.latestIngressS,
    })),
    rules: {
      ...rules,
      work: milder(rules.work, "work"),
      recharge: milder(rules.recharge, "recharge"),
      drinking: milder(rules.drinking, "drinking"),
      // Ways keep the times of the plan's own pace; only that it is refused is lifted.
      ...(holds("walking-physics", 0)
        ? {}
        : { walking: slower(rules.walking), walkback: slower(rules.walkback) }),
    },
  };
}

/** When each EVA may be out, and for how long. */
function outingsUnder(problem: Problem, lenient: Plan, holds: CauseTest) {
  const { plan } = problem;
  const gaps = gapsOf(lenient);
  const evas = plan.evas.map((eva, e) => (holds("longest", e) ? eva : { ...eva, longestS: duration(FAR_S) }));
  const dutyS = holds("duty", 0) ? problem.limits.dutyS : FAR_S;
  return {
    gapStart: starts(gaps),
    gapFromS: Int32Array.from(gaps.flat(), (gap) => gap.fromS),
    gapToS: Int32Array.from(gaps.flat(), (gap) => gap.toS),
    longestS: Int32Array.from(longestOf({ ...plan, evas, rules: lenient.rules }, dutyS)),
  };
}

/** Links and recharge: EVAs are flown in the same order whatever is lifted. */
function relationsUnder(problem: Problem, lenient: Plan) {
  const { edges, ...relations } = relationsOf(lenient);
  const between = rechargeEdges(lenient, problem.activities, problem.flying);
  return { ...relations, edges: edgeList([...edges, ...between], problem.nodes) };
}

function drawsUnder({ draws, memberOfRoute }: Problem, holds: CauseTest): Problem["draws"] {
  const openWhere = (left: number, k: number): number => {
    const m = memberOfRoute[Math.floor(k / KINDS)]!;
    return holds("consumable", m * KINDS + (k % KINDS)) ? left : Infinity;
  };
  return {
    ...draws,
    available: draws.available.map(openWhere),
    availableBack: draws.availableBack.map(openWhere),
    walkbackBinds: holds("walk-back-consumables", 0) ? draws.walkbackBinds : new Uint8Array(KINDS),
  };
}

function limitsUnder(limits: Limits, holds: CauseTest): Limits {
  const when = (kind: CauseKind, value: number): number => (holds(kind, 0) ? value : Infinity);
  return {
    ...limits,
    apartM: when("separation", limits.apartM),
    workS: when("work", limits.workS),
    evaM: when("eva-distance", limits.evaM),
    stayM: when("stay-distance", limits.stayM),
    dutyS: when("duty", limits.dutyS),
    storesBind: limits.storesBind && holds("stores", 0),
  };
}

function loadsUnder(loads: Loads, holds: CauseTest): Loads {
  const open = (values: Float64Array): Float64Array =>
    values.map((value, c) => (holds("container", c) ? value : Infinity));
  return {
    ...loads,
    holdsGrams: open(loads.holdsGrams),
    holdsMillilitres: open(loads.holdsMillilitres),
    returnGrams: holds("return-mass", 0) ? loads.returnGrams : Infinity,
  };
}

/** Chains of units: of lifted equipment as many as all tasks together ask for. */
function chainsUnder(problem: Problem, holds: CauseTest) {
  const counts = Array.from(problem.equipmentCount, (_, q) => {
    const now = problem.chainStart[q + 1]! - problem.chainStart[q]!;
    if (holds("equipment", q)) return now;
    return problem.slotEquipment.reduce((sum, one) => sum + (one === q ? 1 : 0), 0);
  });
  const units = counts.map((count, q) => Array.from({ length: count }, () => q));
  return {
    chains: counts.reduce((sum, count) => sum + count, 0),
    chainStart: starts(units),
    equipmentOfChain: Int32Array.from(units.flat()),
  };
}

function equipmentNeeded(problem: Problem, a: number, q: number): number {
  let needed = 0;
  for (let s = problem.slotStart[a]!; s < problem.slotStart[a + 1]!; s += 1)
    if (problem.slotEquipment[s] === q) needed += 1;
  return needed;
}

function starts(lists: readonly (readonly unknown[])[]): Int32Array {
  const start = new Int32Array(lists.length + 1);
  lists.forEach((list, i) => {
    start[i + 1] = start[i]! + list.length;
  });
  return start;
}
