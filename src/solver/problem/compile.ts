import { stocks } from "../../physics/index.ts";
import { type Plan, type Schedule, suitIdOn, suitsWorn } from "../../plan/index.ts";
import { distance, type Inside, type Ways } from "../../terrain/index.ts";
import { type FromEgress, KINDS, type Limits, NEVER, type Problem } from "./problem.ts";
import { choosing } from "./choices.ts";
import { consumptionOf } from "./draws.ts";
import { type LegTable, legTableOf } from "./ground.ts";
import { groupsOf } from "./groups.ts";
import { heatOf } from "./heat.ts";
import { loadsOf } from "./loads.ts";
import { openingsOf } from "./openings.ts";
import { flyingOrder, gapsOf, longestOf, rechargeEdges, routesOf } from "./outings.ts";
import { clustersOf, edgeList, relationsOf } from "./relations.ts";
import { openingsFrom, startsIn } from "./starts.ts";
import { suitRatesOn } from "./suitrates.ts";

/**
 * Compiles `plan`: everything the moves read, in flat arrays. Reads the plan, never changes it. EVAs with common crew are flown in the
 * order of `flown`, else of their earliest egress: a schedule that is to be laid on a board has to be given. Its starts off the grid
 * are not among those that may be chosen (see `withStartsOf`).
 */
export function compile(plan: Plan, flown?: Schedule): Problem {
  const ground = legTableOf(plan);
  const { ways } = ground;
  const insides = plan.tasks.map((task) => ground.inside(task));
  const activities = plan.tasks.length;
  const evas = plan.evas.length;
  const routes = routesOf(plan);
  const gaps = gapsOf(plan);
  const relations = relationsOf(plan);
  const nodes = activities + 2 * evas + 2;
  const source = nodes - 2;
  const sink = nodes - 1;
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

  const scarce = scarceEquipment(plan);
  const slotsOf = plan.tasks.map((task, a) => [
    ...Array.from({ length: task.crew.count }, () => -1),
    ...(lengthS[a]! > 0
      ? task.equipment.flatMap((use) => {
          const q = scarce.get(use.equipment);
          return q === undefined ? [] : Array.from({ length: use.count }, () => q);
        })
      : []),
  ]);
  const slotStart = startsOf(slotsOf);
  const openingOf = openingsOf(plan);
  const openings = plan.tasks.map((task) => openingOf(task));
  const gridS = plan.rules.startGridS;
  const chosen = plan.tasks.map((task, a) => startsIn(openings[a]!, gridS, task));
  const choicesOf = choosing(plan, ground, routes);
  const choices = plan.tasks.map((_, a) => (feasibleCounts(plan, slotsOf[a]!) ? choicesOf(a) : []));
  const chainStart = new Int32Array(plan.equipment.length + 1);
  plan.equipment.forEach((one, q) => {
    chainStart[q + 1] = chainStart[q]! + (scarce.has(one.id) ? one.count : 0);
  });
  const roamM = insides.reduce((most, one) => Math.max(most, one.roamM), 0);
  const limits = limitsOf(plan, ways, roamM);
  const flying = flyingOrder(plan, flown);
  const longestS = longestOf(plan, limits.dutyS);
  const longestOutS = gaps.reduce((most, list, e) => {
    const fits = list.reduce((wide, gap) => Math.max(wide, gap.toS - gap.fromS), 0);
    return Math.max(most, Math.min(fits, longestS[e]!));
  }, 0);
  const suitRates = suitRatesOn(plan, ways, routes);
  const draws = consumptionOf(plan, ground, routes, suitRates, longestOutS, insides);
  const heat = heatOf(plan, ground, routes, suitRates, longestOutS);

  const pet = fromEgress(plan);
  const edges = edgeList([...relations.edges, ...rechargeEdges(plan, activities, flying)], nodes);
  const atOnce = slotsOf.some((slots, a) => slots.length > 1 || plan.tasks[a]!.crew.count === 0);
  const bounded = gaps.some(
    (list, e) => list.length > 1 || list.some((gap) => gap.toS - gap.fromS > longestS[e]!),
  );
  const daily =
    Number.isFinite(limits.apartM) ||
    (Number.isFinite(limits.workS) && limits.workS < longestOutS) ||
    draws.walkbackBinds.includes(1) ||
    heat !== null ||
    pet !== null ||
    limits.dutyS < longestOutS * evas ||
    limits.storesBind;
  const networked = edges.from.length > 0 || atOnce || bounded || draws.binds;

  return {
    plan,
    kinds: KINDS,
    activities,
    evas,
    members: plan.crew.length,
    suits: plan.suits.length,
    routes: routes.length,
    chains: chainStart[plan.equipment.length]!,
    nodes,
    source,
    sink,
    places: ways.size,
    lander: ways.lander,
    slots: slotStart[activities]!,
    lengthS,
    beginsAt,
    endsAt,
    worth: Float64Array.from(plan.tasks, (task) => task.worth),
    must: Uint8Array.from(plan.tasks, (task) => (task.must ? 1 : 0)),
    crewCount: Int32Array.from(plan.tasks, (task) => task.crew.count),
    slotStart,
    slotEquipment: Int32Array.from(slotsOf.flat()),
    gridS,
    givenS: new Map(),
    windows: openingsFrom(openings),
    ...openingsFrom(chosen),
    choiceStart: startsOf(choices),
    choiceAt: startsOf(choices.flat()),
    choiceRoutes: Int32Array.from(choices.flat(2)),
    innerM: Int32Array.from(insides, (one) => one.walkM),
    roamM: Float64Array.from(insides, (one) => one.roamM),
    innerPeakS: Int32Array.from(insides, (one) => peakOver(ground, one)),
    restful: Uint8Array.from(plan.tasks, (task) => (task.effort === "rest" ? 1 : 0)),
    evaOfRoute: Int32Array.from(routes, (route) => route.eva),
    memberOfRoute: Int32Array.from(routes, (route) => route.member),
    suitOfRoute: Int32Array.from(routes, ({ eva, member }) => {
      const suitId = suitIdOn(plan, plan.evas[eva]!, plan.crew[member]!.id);
      return plan.suits.findIndex((suit) => suit.id === suitId);
    }),
    routeStart: startsOf(plan.evas.map((eva) => eva.crew)),
    legS: routes.map((_, r) => ground.legS[r]!),
    legM: ways.distanceM,
    ways,
    homeS: ground.homeS,
    peakS: ground.peakS,
    beyond: ground.beyond,
    equipmentOfChain: Int32Array.from(
      plan.equipment.flatMap((one, q) =>
        scarce.has(one.id) ? Array.from({ length: one.count }, () => q) : [],
      ),
    ),
    chainStart,
    equipmentCount: Int32Array.from(plan.equipment, (one) => one.count),
    gapStart: startsOf(gaps),
    gapFromS: Int32Array.from(gaps.flat(), (gap) => gap.fromS),
    gapToS: Int32Array.from(gaps.flat(), (gap) => gap.toS),
    longestS: Int32Array.from(longestS),
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
    cluster: clustersOf(relations, activities),
    checkLevel: daily ? "rules" : networked ? "network" : "slack",
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

/** The longest walk-back inside a task where it is longer than from both ends; else 0. */
function peakOver({ homeS, insideHome }: LegTable, inside: Inside): number {
  const { seconds } = insideHome(inside);
  return seconds > Math.max(homeS[inside.from]!, homeS[inside.to]!) ? seconds : 0;
}

/** First index of each list when all are laid end to end; one more entry than lists. */
function startsOf(lists: readonly (readonly unknown[])[]): Int32Array {
  const start = new Int32Array(lists.length + 1);
  lists.forEach((list, i) => {
    start[i + 1] = start[i]! + list.length;
  });
  return start;
}

/** Equipment that all its users together could ask too much of; the rest never binds and gets no chains. */
function scarceEquipment(plan: Plan): Map<string, number> {
  const asked = new Map<string, number>();
  for (const task of plan.tasks)
    for (const use of task.equipment) asked.set(use.equipment, (asked.get(use.equipment) ?? 0) + use.count);
  return new Map(
    plan.equipment.flatMap((one, q) => ((asked.get(one.id) ?? 0) > one.count ? [[one.id, q] as const] : [])),
  );
}

/** False when a task asks for more of an equipment than there is. */
function feasibleCounts(plan: Plan, slots: readonly number[]): boolean {
  return plan.equipment.every((one, q) => slots.filter((slot) => slot === q).length <= one.count);
}

/** Corner to corner of the box round all ways over a height grid, m; 0 without one. */
function extentM({ trails }: Ways): number {
  if (!trails) return 0;
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const trail of trails) {
    for (const { eastM, northM } of trail?.points ?? []) {
      west = Math.min(west, eastM);
      east = Math.max(east, eastM);
      south = Math.min(south, northM);
      north = Math.max(north, northM);
    }
  }
  return west > east ? 0 : Math.hypot(east - west, north - south);
}

function limitsOf(plan: Plan, ways: Ways, roamM: number): Limits {
  const { distance: walked, separation, work, duty } = plan.rules;
  const { places } = plan.site;
  const held = stocks({
    oxygenKg: plan.stores.oxygenKg,
    waterKg: plan.stores.waterKg,
    batteryWh: plan.stores.batteryWh,
    co2Kg: 0,
    leakKgH: 0,
    electricalW: 0,
    environmentW: 0,
    respiratoryQuotient: 1,
    coolingKjKg: 1,
    absorbentKjKg: 0,
  });
  const breach = (rule: { level: string }, value: number): number =>
    rule.level === "breach" ? value : Infinity;
  const pairs = plan.evas.some((eva) => eva.crew.length > 1);
  const straightM =
    separation.level === "breach" && pairs
      ? Float64Array.from(places.flatMap((a) => places.map((b) => distance(a, b))))
      : new Float64Array(0);
  const binds =
    straightM.some((metres) => metres + 2 * roamM > separation.greatestM) ||
    (straightM.length > 0 && extentM(ways) + 2 * roamM > separation.greatestM);
  const suits = new Map(plan.suits.map((suit) => [suit.id, suit]));
  // Every outing but the last in each suit is recharged for, at most a full suit each.
  const outings = plan.evas.flatMap((eva) => suitsWorn(plan, eva));
  const refills = outings.map((id) => suits.get(id)!);
  const most = (of: (suit: (typeof refills)[number]) => number): number =>
    refills.reduce((sum, suit) => sum + of(suit), 0);
  const storesBind =
    outings.length > new Set(outings).size &&
    (outings.length > plan.stores.absorbentChanges ||
      most((suit) => suit.oxygenKg) > plan.stores.oxygenKg ||
      most((suit) => suit.waterKg) > plan.stores.waterKg ||
      most((suit) => suit.batteryWh) > plan.stores.batteryWh);
  return {
    evaM: breach(walked, walked.evaM),
    stayM: breach(walked, walked.stayM),
    apartM: binds ? separation.greatestM : Infinity,
    straightM,
    workS: breach(work, work.longestS),
    restS: work.restS,
    dutyS: breach(duty, duty.stayS),
    stores: Float64Array.of(held.oxygen, 0, held.water, held.battery),
    changes: plan.stores.absorbentChanges,
    storesBind,
  };
}
