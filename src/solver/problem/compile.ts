import { type Plan, type Schedule, suitIdOn } from "../../plan/index.ts";
import type { Inside, Ways } from "../../terrain/index.ts";
import { type FromEgress, KINDS, type Limits, NEVER, type Openings, type Problem } from "./problem.ts";
import { choosing } from "./choices.ts";
import { consumptionOf } from "./draws.ts";
import { type LegTable, legTableOf } from "./ground.ts";
import { groupsOf } from "./groups.ts";
import { heatOf } from "./heat.ts";
import { limitsOf } from "./limits.ts";
import { loadsOf } from "./loads.ts";
import { openingsOf } from "./openings.ts";
import {
  flyingOrder,
  type Gap,
  gapsOf,
  longestOf,
  rechargeEdges,
  type RouteKey,
  routesOf,
} from "./outings.ts";
import { clustersOf, edgeList, relationsOf } from "./relations.ts";
import { feasibleCounts, type Slots, slotsOf } from "./slots.ts";
import { openingsFrom, startsIn } from "./starts.ts";
import { suitRatesOn } from "./suitrates.ts";
import { firstsOf } from "./firsts.ts";
import { changed } from "./changed.ts";

/**
 * Compiles `plan`: everything the moves read, in flat arrays. Reads the plan, never changes it. EVAs with common crew are flown in the
 * order of `flown`, else of their earliest egress: a schedule that is to be laid on a board has to be given. Its starts off the grid
 * are not among those that may be chosen (see `withStartsOf`).
 */
export function compile(plan: Plan, flown?: Schedule): Problem {
  const ground = legTableOf(plan);
  const { ways } = ground;
  const routes = routesOf(plan);
  const insides = plan.tasks.map((task) => ground.inside(task));
  const outings = outingsOf(plan, ways, insides);
  const nodes = nodesOf(plan, ways);
  const relations = relationsOf(plan);
  const flying = flyingOrder(plan, flown);
  const edges = edgeList(
    [...relations.edges, ...rechargeEdges(plan, plan.tasks.length, flying)],
    nodes.nodes,
  );
  const slots = slotsOf(plan);
  const suitRates = suitRatesOn(plan, ways, routes);
  const draws = consumptionOf(plan, ground, routes, suitRates, outings.longestOutS, insides);
  const heat = heatOf(plan, ground, routes, suitRates, outings.longestOutS);
  const pet = fromEgress(plan);
  const { limits } = outings;
  const compiled: Problem = {
    plan,
    kinds: KINDS,
    activities: plan.tasks.length,
    evas: plan.evas.length,
    members: plan.crew.length,
    suits: plan.suits.length,
    routes: routes.length,
    chains: slots.equipmentOfChain.length,
    ...nodes,
    places: ways.size,
    lander: ways.lander,
    ...activitiesOf(plan, ground, insides),
    ...slotArrays(slots),
    ...startsOn(plan),
    ...choicesIn(plan, ground, routes, slots),
    ...routeArrays(plan, routes),
    legS: routes.map((_, r) => ground.legS[r]!),
    legM: ways.distanceM,
    ways,
    homeS: ground.homeS,
    peakS: ground.peakS,
    beyond: ground.beyond,
    equipmentCount: Int32Array.from(plan.equipment, (one) => one.count),
    ...outingArrays(outings),
    edges,
    needs: relations.needs,
    neededBy: relations.neededBy,
    pairs: relations.pairs,
    pet,
    groups: groupsOf(plan),
    flying,
    draws,
    heat,
    limits,
    loads: loadsOf(plan),
    cluster: clustersOf(relations, plan.tasks.length),
    checkLevel: checkLevelOf(plan, outings, slots, { edges, draws, heat, pet }),
  };
  return changed(compiled, {});
}

/** When the EVAs may be flown and how long, and what holds over all of them. */
interface Outings {
  readonly gaps: readonly (readonly Gap[])[];
  readonly longestS: readonly number[];
  /** The longest that anybody may be out at once. */
  readonly longestOutS: number;
  readonly limits: Limits;
}

function outingsOf(plan: Plan, ways: Ways, insides: readonly Inside[]): Outings {
  const gaps = gapsOf(plan);
  const roamM = insides.reduce((most, one) => Math.max(most, one.roamM), 0);
  const limits = limitsOf(plan, ways, roamM);
  const longestS = longestOf(plan, limits.dutyS);
  const longestOutS = gaps.reduce((most, list, e) => {
    const fits = list.reduce((wide, gap) => Math.max(wide, gap.toS - gap.fromS), 0);
    return Math.max(most, Math.min(fits, longestS[e]!));
  }, 0);
  return { gaps, longestS, longestOutS, limits };
}

function outingArrays({
  gaps,
  longestS,
}: Outings): Pick<Problem, "gapStart" | "gapFromS" | "gapToS" | "longestS"> {
  return {
    gapStart: firstsOf(gaps),
    gapFromS: Int32Array.from(gaps.flat(), (gap) => gap.fromS),
    gapToS: Int32Array.from(gaps.flat(), (gap) => gap.toS),
    longestS: Int32Array.from(longestS),
  };
}

/** The nodes: activities, egress and "all back" of each EVA, both ends of the chains; how long they last and where. */
function nodesOf(
  plan: Plan,
  ways: Ways,
): Pick<Problem, "nodes" | "source" | "sink" | "lengthS" | "beginsAt" | "endsAt"> {
  const activities = plan.tasks.length;
  const nodes = activities + 2 * plan.evas.length + 2;
  const placeOf = (id: string | undefined): number =>
    (id === undefined ? undefined : ways.index.get(id)) ?? ways.lander;
  const lengthS = new Int32Array(nodes);
  const beginsAt = new Int32Array(nodes).fill(ways.lander);
  const endsAt = new Int32Array(nodes).fill(ways.lander);
  plan.tasks.forEach((task, a) => {
    lengthS[a] = task.duration.likelyS;
    beginsAt[a] = placeOf(task.place);
    endsAt[a] = placeOf(task.endPlace ?? task.place);
  });
  plan.evas.forEach((eva, e) => {
    lengthS[activities + 2 * e] = eva.egressWorkS;
    lengthS[activities + 2 * e + 1] = eva.ingressWorkS;
  });
  return { nodes, source: nodes - 2, sink: nodes - 1, lengthS, beginsAt, endsAt };
}

function activitiesOf(
  plan: Plan,
  ground: LegTable,
  insides: readonly Inside[],
): Pick<Problem, "worth" | "must" | "crewCount" | "innerM" | "roamM" | "innerPeakS" | "restful"> {
  return {
    worth: Float64Array.from(plan.tasks, (task) => task.worth),
    must: Uint8Array.from(plan.tasks, (task) => (task.must ? 1 : 0)),
    crewCount: Int32Array.from(plan.tasks, (task) => task.crew.count),
    innerM: Int32Array.from(insides, (one) => one.walkM),
    roamM: Float64Array.from(insides, (one) => one.roamM),
    innerPeakS: Int32Array.from(insides, (one) => peakOver(ground, one)),
    restful: Uint8Array.from(plan.tasks, (task) => (task.effort === "rest" ? 1 : 0)),
  };
}

/** The longest walk-back inside a task where it is longer than from both ends; else 0. */
function peakOver({ homeS, insideHome }: LegTable, inside: Inside): number {
  const { seconds } = insideHome(inside);
  return seconds > Math.max(homeS[inside.from]!, homeS[inside.to]!) ? seconds : 0;
}

function slotArrays(
  slots: Slots,
): Pick<Problem, "slots" | "slotStart" | "slotEquipment" | "chainStart" | "equipmentOfChain"> {
  const slotStart = firstsOf(slots.of);
  return {
    slots: slotStart.at(-1)!,
    slotStart,
    slotEquipment: Int32Array.from(slots.of.flat()),
    chainStart: slots.chainStart,
    equipmentOfChain: slots.equipmentOfChain,
  };
}

/** When each activity may start, to the second and on the plan's grid. */
function startsOn(plan: Plan): Pick<Problem, "gridS" | "givenS" | "windows" | keyof Openings> {
  const { startGridS: gridS } = plan.rules;
  const openingOf = openingsOf(plan);
  const openings = plan.tasks.map((task) => openingOf(task));
  return {
    gridS,
    givenS: new Map(),
    windows: openingsFrom(openings),
    ...openingsFrom(plan.tasks.map((task, a) => startsIn(openings[a]!, gridS, task))),
  };
}

/** Who may do each activity. */
function choicesIn(
  plan: Plan,
  ground: LegTable,
  routes: readonly RouteKey[],
  slots: Slots,
): Pick<Problem, "choiceStart" | "choiceAt" | "choiceRoutes"> {
  const choicesOf = choosing(plan, ground, routes);
  const choices = plan.tasks.map((_, a) => (feasibleCounts(plan, slots.of[a]!) ? choicesOf(a) : []));
  return {
    choiceStart: firstsOf(choices),
    choiceAt: firstsOf(choices.flat()),
    choiceRoutes: Int32Array.from(choices.flat(2)),
  };
}

function routeArrays(
  plan: Plan,
  routes: readonly RouteKey[],
): Pick<Problem, "evaOfRoute" | "memberOfRoute" | "suitOfRoute" | "routeStart"> {
  return {
    evaOfRoute: Int32Array.from(routes, (route) => route.eva),
    memberOfRoute: Int32Array.from(routes, (route) => route.member),
    suitOfRoute: Int32Array.from(routes, ({ eva, member }) => {
      const suitId = suitIdOn(plan, plan.evas[eva]!, plan.crew[member]!.id);
      return plan.suits.findIndex((suit) => suit.id === suitId);
    }),
    routeStart: firstsOf(plan.evas.map((eva) => eva.crew)),
  };
}

function fromEgress({ tasks }: Plan): FromEgress | null {
  const bound = tasks.flatMap((task, a) => (task.pet ? [a] : []));
  if (bound.length === 0) return null;
  return {
    fromS: Int32Array.from(tasks, (task) => task.pet?.startS ?? -NEVER),
    toS: Int32Array.from(tasks, (task) => task.pet?.endS ?? NEVER),
    bound: Int32Array.from(bound),
  };
}

/** How much has to be looked at to know that a day holds: all rules, only times between routes, or only each route's own slack. */
function checkLevelOf(
  plan: Plan,
  { gaps, longestS, longestOutS, limits }: Outings,
  slots: Slots,
  { edges, draws, heat, pet }: Pick<Problem, "edges" | "draws" | "heat" | "pet">,
): Problem["checkLevel"] {
  const daily =
    Number.isFinite(limits.apartM) ||
    (Number.isFinite(limits.workS) && limits.workS < longestOutS) ||
    draws.walkbackBinds.includes(1) ||
    heat !== null ||
    pet !== null ||
    limits.dutyS < longestOutS * plan.evas.length ||
    limits.storesBind;
  if (daily) return "rules";
  const atOnce = slots.of.some((list, a) => list.length > 1 || plan.tasks[a]!.crew.count === 0);
  const bounded = gaps.some(
    (list, e) => list.length > 1 || list.some((gap) => gap.toS - gap.fromS > longestS[e]!),
  );
  const isSummed = draws.binds || limits.stayM !== Infinity;
  return edges.from.length > 0 || atOnce || bounded || isSummed ? "network" : "slack";
}
