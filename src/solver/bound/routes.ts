import { KINDS, NEVER, type Problem } from "../problem/problem.ts";
import { cheapest, detoured, freely } from "./detours.ts";

/**
 * Routes on their own: what one crew member can do on one EVA when nobody else is there. Leaving out what ties routes together
 * (meeting for a task, lags between tasks, rests, staying near, the walk-back on consumables) only allows more, so that what no such route reaches,
 * no schedule does.
 */

/** Routes that are alike, with the activities that can stand on them; node `count` is the lander. */
export interface RouteClass {
  readonly routes: readonly number[];
  readonly count: number;
  /** Activity of each node. */
  readonly activity: Int32Array;
  readonly lastsS: Int32Array;
  /** Stretches in which an activity may start: first by node, one more than nodes. */
  readonly openStart: Int32Array;
  readonly openFromS: Int32Array;
  readonly openToS: Int32Array;
  /** Shortest time from the end of one node to the begin of the next, flat over nodes and lander. */
  readonly legS: Int32Array;
  readonly leaveS: number;
  readonly backByS: number;
  /** Longest time between leaving the lander and coming back. */
  readonly outS: number;
  /** False when `outS` cannot be exceeded between leaving at the earliest and coming back at the latest. */
  readonly outBinds: boolean;
  /** What adds up along a route against a limit. */
  readonly sums: readonly RouteSum[];
}

/** A sum over tasks, ways and seconds out that stays within `available`. */
export interface RouteSum {
  readonly of: "draws" | "distance" | "work";
  readonly available: number;
  readonly perSecond: number;
  readonly node: Float64Array;
  /** Flat as legS. */
  readonly leg: Float64Array;
}

/** The classes of `problem`'s routes; a route on which nothing can stand is in none. */
export function routeClasses(problem: Problem): RouteClass[] {
  const laying = layClasses(problem);
  for (;;) {
    const { done, value } = laying.next();
    if (done) return value;
  }
}

/** As routeClasses, one class after the other. */
export function* layClasses(problem: Problem): Generator<void, RouteClass[]> {
  const byKey = new Map<string, number[]>();
  for (let r = 0; r < problem.routes; r += 1) {
    const key = keyOf(problem, r);
    const alike = byKey.get(key);
    if (alike) alike.push(r);
    else byKey.set(key, [r]);
  }
  const classes: RouteClass[] = [];
  for (const routes of byKey.values()) {
    yield;
    const one = classOf(problem, routes);
    if (one.count > 0) classes.push(one);
  }
  return classes;
}

function standsOn(problem: Problem, a: number, r: number): boolean {
  const crew = problem.crewCount[a]!;
  for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1)
    for (let k = 0; k < crew; k += 1) if (problem.choiceRoutes[problem.choiceAt[c]! + k] === r) return true;
  return false;
}

/** Equal for routes that are alike in everything a route of its own depends on. */
function keyOf(problem: Problem, r: number): string {
  const { draws } = problem;
  const rows = [draws.available, draws.restRate, draws.airlockRate].map((row) =>
    row.slice(r * KINDS, (r + 1) * KINDS).join(),
  );
  const allowed: string[] = [];
  for (let a = 0; a < problem.activities; a += 1) {
    if (!standsOn(problem, a, r)) continue;
    const at = (a * problem.routes + r) * KINDS;
    allowed.push(`${a}:${draws.binds ? draws.task.slice(at, at + KINDS).join() : ""}`);
  }
  const leg = draws.binds ? draws.leg[r]!.join() : "";
  return [problem.evaOfRoute[r], ...rows, allowed.join(" "), problem.legS[r]!.join(), leg].join("|");
}

function classOf(problem: Problem, routes: readonly number[]): RouteClass {
  const r = routes[0]!;
  const times = timesOf(problem, problem.evaOfRoute[r]!);
  const { leaveS, backByS, outS } = times;
  const nodes = nodesOf(problem, r, leaveS);
  const legS = problem.legS[r]!;
  const lastsS = Int32Array.from(nodes, (a) => problem.lengthS[a]!);
  return {
    routes,
    count: nodes.length,
    activity: Int32Array.from(nodes),
    lastsS,
    ...openingsOf(problem, nodes),
    legS: Int32Array.from(detoursOver(problem, nodes, lastsS, Float64Array.from(legS))),
    leaveS,
    backByS,
    outS,
    outBinds: outS < backByS - leaveS,
    sums: [...drawSums(problem, r, nodes, times), ...limitSums(problem, r, nodes, times)].filter((sum) =>
      sumBinds(sum, Math.min(outS, backByS - leaveS)),
    ),
  };
}

/** When an EVA leaves the lander at the soonest and is back at the latest, how long it may be away, and its airlock work. */
interface Times {
  readonly leaveS: number;
  readonly backByS: number;
  readonly outS: number;
  readonly airlockS: number;
}

function timesOf(problem: Problem, e: number): Times {
  const { lengthS, gapStart, gapFromS, gapToS } = problem;
  const egress = problem.activities + 2 * e;
  const airlockS = lengthS[egress]! + lengthS[egress + 1]!;
  const g = gapStart[e]!;
  const end = gapStart[e + 1]!;
  const leaveS = g === end ? NEVER : gapFromS[g]! + lengthS[egress]!;
  const backByS = g === end ? -NEVER : gapToS[end - 1]! - lengthS[egress + 1]!;
  return { leaveS, backByS, outS: problem.longestS[e]! - airlockS, airlockS };
}

/** The activities that can stand on route `r` and be reached in time. */
function nodesOf(problem: Problem, r: number, leaveS: number): number[] {
  const { places, lander, beginsAt, openStart, openToS } = problem;
  // A place that is closed from the lander may be open from others.
  const soonestS = detoured(Float64Array.from(problem.legS[r]!), freely(places)).subarray(lander * places);
  const nodes: number[] = [];
  for (let a = 0; a < problem.activities; a += 1) {
    const last = openStart[a + 1]! - 1;
    if (last < openStart[a]! || !standsOn(problem, a, r)) continue;
    if (leaveS + soonestS[beginsAt[a]!]! <= openToS[last]!) nodes.push(a);
  }
  return nodes;
}

/**
 * What lies at the least between every two of `nodes` and the lander, flat, where the others may be done on the way: `cost` between
 * places, flat, and `own` cost of each node. Detours go by places, of which there are fewer than nodes.
 */
function detoursOver(
  { places, lander, beginsAt, endsAt }: Problem,
  nodes: readonly number[],
  own: ArrayLike<number>,
  cost: Float64Array,
): Float64Array {
  const passed = nodes.map((a, k) => ({ from: beginsAt[a]!, to: endsAt[a]!, cost: own[k]! }));
  const best = detoured(cost, cheapest(passed));
  const size = nodes.length + 1;
  const ends = [...nodes.map((a) => endsAt[a]!), lander];
  const begins = [...nodes.map((a) => beginsAt[a]!), lander];
  return Float64Array.from(
    { length: size * size },
    (_, at) => best[ends[Math.floor(at / size)]! * places + begins[at % size]!]!,
  );
}

/** What suits carry, by kind. */
function drawSums(problem: Problem, r: number, nodes: readonly number[], { airlockS }: Times): RouteSum[] {
  const { draws, places } = problem;
  if (!draws.binds) return [];
  const sums: RouteSum[] = [];
  for (let kind = 0; kind < KINDS; kind += 1) {
    if (draws.kindBinds[kind] === 0) continue;
    const rest = draws.restRate[r * KINDS + kind]!;
    const node = Float64Array.from(nodes, (a) => draws.task[(a * problem.routes + r) * KINDS + kind]!);
    const leg = Float64Array.from(
      { length: places * places },
      (_, cell) => draws.leg[r]![cell * KINDS + kind]!,
    );
    sums.push({
      of: "draws",
      available:
        draws.available[r * KINDS + kind]! - airlockS * (draws.airlockRate[r * KINDS + kind]! + rest),
      perSecond: rest,
      node,
      leg: detoursOver(problem, nodes, node, leg),
    });
  }
  return sums;
}

/** Distance of an EVA, and work and walking as far as rests leave time for them. */
function limitSums(problem: Problem, r: number, nodes: readonly number[], times: Times): RouteSum[] {
  const { limits, legM, restful, lengthS, innerM } = problem;
  const { leaveS, backByS, outS, airlockS } = times;
  const legS = Float64Array.from(problem.legS[r]!);
  const walkedM = Float64Array.from(nodes, (a) => innerM[a]!);
  const workedS = Float64Array.from(nodes, (a) => (restful[a] === 1 ? 0 : lengthS[a]!));
  const sums: RouteSum[] = [];
  if (Number.isFinite(limits.evaM))
    sums.push({
      of: "distance",
      available: limits.evaM,
      perSecond: 0,
      node: walkedM,
      leg: detoursOver(problem, nodes, walkedM, Float64Array.from(legM)),
    });
  if (Number.isFinite(limits.workS))
    sums.push({
      of: "work",
      available:
        mostWorkS(limits.workS, limits.restS, Math.min(outS, backByS - leaveS) + airlockS) - airlockS,
      perSecond: 0,
      node: workedS,
      leg: detoursOver(problem, nodes, workedS, legS),
    });
  return sums;
}

/**
 * The most work and walking in `wholeS` seconds when it is done in stretches of at most `workS` with rests of `restS` between (work-and-rest):
 * some number of stretches, each as long as it may be.
 */
function mostWorkS(workS: number, restS: number, wholeS: number): number {
  let most = 0;
  for (let stretches = 1; ; stretches += 1) {
    const leftS = wholeS - (stretches - 1) * restS;
    most = Math.max(most, Math.min(stretches * workS, leftS));
    if (workS <= 0 || stretches * workS >= leftS) return most;
  }
}

function openingsOf(
  problem: Problem,
  nodes: readonly number[],
): Pick<RouteClass, "openStart" | "openFromS" | "openToS"> {
  const openStart = [0];
  const openFromS: number[] = [];
  const openToS: number[] = [];
  for (const a of nodes) {
    for (let k = problem.openStart[a]!; k < problem.openStart[a + 1]!; k += 1) {
      openFromS.push(problem.openFromS[k]!);
      openToS.push(problem.openToS[k]!);
    }
    openStart.push(openFromS.length);
  }
  return {
    openStart: Int32Array.from(openStart),
    openFromS: Int32Array.from(openFromS),
    openToS: Int32Array.from(openToS),
  };
}

/** False when no route of `outS` seconds can exceed the sum, whatever it does. */
function sumBinds(sum: RouteSum, outS: number): boolean {
  const size = sum.node.length + 1;
  let most = sum.perSecond * outS;
  for (let i = 0; i < size; i += 1) {
    let dearest = 0;
    for (let j = 0; j < size; j += 1)
      if (sum.leg[i * size + j]! < NEVER) dearest = Math.max(dearest, sum.leg[i * size + j]!);
    most += dearest + (i < size - 1 ? sum.node[i]! : 0);
  }
  return most > sum.available;
}
