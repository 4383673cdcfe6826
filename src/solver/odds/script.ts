import { CONSUMABLES, drawPerSecond, purgeOf, reserves, stocks } from "../../physics/index.ts";
import { oneAfterOther, type Plan, type Schedule } from "../../plan/index.ts";
import { insideOf } from "../../terrain/index.ts";
import { compile } from "../compile/index.ts";
import { openingsOf } from "../compile/openings.ts";
import { gapsOf, routesOf } from "../compile/outings.ts";
import { openingsFrom } from "../compile/starts.ts";
import { type Rate, wornOn } from "../compile/worn.ts";
import { KINDS, type Openings, type Problem } from "../problem.ts";
import { read } from "../verify.ts";
import { castOf } from "./lanes.ts";

/**
 * A planned day laid out for simulation: what is done by whom in which order, and what everything draws. Flat arrays,
 * made once, read by every simulated day. Its openings are those of the start with the likely duration, without pins and to the second.
 */
export interface Script extends Openings {
  readonly problem: Problem;
  /** Placed activities in the order of their planned starts. */
  readonly order: Int32Array;
  readonly placed: Uint8Array;
  readonly planS: Int32Array;
  readonly lowS: Int32Array;
  readonly highS: Int32Array;
  /** By slot; see Cast. */
  readonly laneOf: Int32Array;
  /** 1 where windows, sun or relay bind the activity. */
  readonly windowed: Uint8Array;
  /** Ties between placed activities, by the later one: first by activity, one more entry. */
  readonly tieStart: Int32Array;
  readonly ties: Ties;
  readonly evas: Outings;
  readonly rates: Rates;
  /** Placements that cannot be read. */
  readonly unread: number;
}

/** Lags from one end of an activity to one end of another; -Infinity and Infinity where there is no bound. */
export interface Ties {
  readonly from: Int32Array;
  readonly fromEnd: Uint8Array;
  readonly toEnd: Uint8Array;
  readonly leastS: Float64Array;
  readonly greatestS: Float64Array;
}

/** By EVA: what is planned and what bounds it. */
export interface Outings {
  readonly flown: Uint8Array;
  readonly egressS: Float64Array;
  readonly closeS: Float64Array;
  /** Ingress complete no later, beside the longest duration. */
  readonly latestS: Float64Array;
  /** From ingress complete to the next egress of anybody in common, s. */
  readonly leastPauseS: number;
  /** EVAs flown before with somebody in common, by EVA: first index, one more entry. */
  readonly beforeStart: Int32Array;
  readonly before: Int32Array;
}

/**
 * Draws per second by kind: whole at the planned work rate, and how much one whole planned rate more would add (not whole).
 * Rest, hatch work: by route. Tasks: by activity and route. Ways: by route, then by cell.
 */
export interface Rates {
  readonly stock: Float64Array;
  /** The stock less what the purge takes. */
  readonly atEgress: Float64Array;
  readonly reserve: Float64Array;
  readonly rest: Float64Array;
  readonly restMore: Float64Array;
  readonly hatch: Float64Array;
  readonly hatchMore: Float64Array;
  readonly task: Float64Array;
  readonly taskMore: Float64Array;
  readonly way: readonly Float64Array[];
  readonly wayMore: readonly Float64Array[];
}

/** Lays out `schedule` of `plan`. Placements that cannot be read are left out and counted. */
export function scriptOf(plan: Plan, schedule: Schedule): Script {
  const problem = compile(plan);
  const { stands, unread } = read(problem, schedule);
  const { order, laneOf } = castOf(problem, stands);
  const { activities } = problem;
  const placed = new Uint8Array(activities);
  const planS = new Int32Array(activities);
  for (const { activity, startS } of order) {
    placed[activity] = 1;
    planS[activity] = startS;
  }
  return {
    problem,
    order: Int32Array.from(order, (stand) => stand.activity),
    placed,
    planS,
    // No day has a task shorter than what is walked in it.
    lowS: Int32Array.from(plan.tasks, (task) => {
      const { likelyS, lowS = likelyS } = task.duration;
      const { leastS } = insideOf(problem.ways, task, plan.rules.walking.speedMs);
      return task.crew.count === 0 ? lowS : Math.min(likelyS, Math.max(lowS, leastS));
    }),
    highS: Int32Array.from(plan.tasks, ({ duration }) => duration.highS ?? duration.likelyS),
    laneOf,
    ...unpinned(plan, problem),
    windowed: Uint8Array.from(plan.tasks, (task) =>
      task.windows.length > 0 || task.sun !== undefined || task.relay ? 1 : 0,
    ),
    ...tiesOf(plan, problem, placed),
    evas: outingsOf(plan, problem, placed, planS, laneOf),
    rates: ratesOf(plan, problem),
    unread: unread.length,
  };
}

/** When each task may start but for pins, to the second; the problem's own windows where nothing is pinned to a moment. */
function unpinned(plan: Plan, problem: Problem): Openings {
  if (plan.tasks.every((task) => task.pin?.startS === undefined)) return problem.windows;
  const openingOf = openingsOf(plan);
  return openingsFrom(plan.tasks.map((task) => openingOf({ ...task, pin: undefined })));
}

/** Lags of links and hot keep-outs between placed activities. */
function tiesOf(plan: Plan, problem: Problem, placed: Uint8Array): Pick<Script, "tieStart" | "ties"> {
  const index = new Map(plan.tasks.map((task, a) => [task.id, a]));
  const list: { from: number; to: number; ends: [number, number]; leastS: number; greatestS: number }[] = [];
  for (const link of plan.links) {
    if (link.type !== "lag") continue;
    list.push({
      from: index.get(link.from.task)!,
      to: index.get(link.to.task)!,
      ends: [link.from.end === "end" ? 1 : 0, link.to.end === "end" ? 1 : 0],
      leastS: link.leastS ?? -Infinity,
      greatestS: link.greatestS ?? Infinity,
    });
  }
  const { edges } = problem;
  edges.origin.forEach((origin, x) => {
    if (origin.rule !== "hot-keep-out") return;
    list.push({ from: edges.from[x]!, to: edges.to[x]!, ends: [1, 1], leastS: 0, greatestS: Infinity });
  });
  const kept = list
    .filter(({ from, to }) => from !== to && placed[from] === 1 && placed[to] === 1)
    .sort((x, y) => x.to - y.to);
  const tieStart = new Int32Array(problem.activities + 1);
  for (const { to } of kept) tieStart[to + 1]! += 1;
  for (let a = 0; a < problem.activities; a += 1) tieStart[a + 1]! += tieStart[a]!;
  return {
    tieStart,
    ties: {
      from: Int32Array.from(kept, (one) => one.from),
      fromEnd: Uint8Array.from(kept, (one) => one.ends[0]),
      toEnd: Uint8Array.from(kept, (one) => one.ends[1]),
      leastS: Float64Array.from(kept, (one) => one.leastS),
      greatestS: Float64Array.from(kept, (one) => one.greatestS),
    },
  };
}

/** Egress and ingress of every EVA as planned (S3), and what bounds them. */
function outingsOf(
  plan: Plan,
  problem: Problem,
  placed: Uint8Array,
  planS: Int32Array,
  laneOf: Int32Array,
): Outings {
  const { evas, activities, routes, places, lander, beginsAt, endsAt, lengthS } = problem;
  const flown = new Uint8Array(evas);
  const firstS = new Float64Array(evas).fill(Infinity);
  const backS = new Float64Array(evas).fill(-Infinity);
  const lastOf = new Int32Array(routes).fill(-1);
  for (let a = 0; a < activities; a += 1) {
    if (placed[a] === 0) continue;
    for (let k = 0; k < problem.crewCount[a]!; k += 1) {
      const r = laneOf[problem.slotStart[a]! + k]!;
      const e = problem.evaOfRoute[r]!;
      flown[e] = 1;
      const outS = problem.legS[r]![lander * places + beginsAt[a]!]!;
      firstS[e] = Math.min(firstS[e]!, planS[a]! - outS);
      if (lastOf[r]! < 0 || planS[a]! > planS[lastOf[r]!]!) lastOf[r] = a;
    }
  }
  for (let r = 0; r < routes; r += 1) {
    const a = lastOf[r]!;
    if (a < 0) continue;
    const e = problem.evaOfRoute[r]!;
    const homeS = problem.legS[r]![endsAt[a]! * places + lander]!;
    backS[e] = Math.max(backS[e]!, planS[a]! + lengthS[a]! + homeS);
  }
  const egressS = firstS.map((s, e) => s - lengthS[activities + 2 * e]!);
  const closeS = backS.map((s, e) => s + lengthS[activities + 2 * e + 1]!);
  const gaps = gapsOf(plan);
  const latestS = closeS.map((s, e) => {
    const gap = gaps[e]!.find((one) => egressS[e]! >= one.fromS && s <= one.toS);
    return gap ? gap.toS : Math.min(plan.evas[e]!.latestIngressS, plan.stay.lengthS);
  });
  const before = plan.evas.map((eva, e) =>
    plan.evas.flatMap((other, o) =>
      o !== e &&
      flown[o] === 1 &&
      flown[e] === 1 &&
      egressS[o]! < egressS[e]! &&
      oneAfterOther(plan, other, eva)
        ? [o]
        : [],
    ),
  );
  const beforeStart = new Int32Array(evas + 1);
  before.forEach((list, e) => (beforeStart[e + 1] = beforeStart[e]! + list.length));
  const { recharge } = plan.rules;
  return {
    flown,
    egressS,
    closeS,
    latestS,
    leastPauseS: recharge.level === "breach" ? recharge.leastS : 0,
    beforeStart,
    before: Int32Array.from(before.flat()),
  };
}

/** Draws of everything at the planned rates and how they grow with the work rate (S6, S7). */
function ratesOf(plan: Plan, problem: Problem): Rates {
  const { routes, ways } = problem;
  const tasks = plan.tasks.length;
  const by = (count: number): Float64Array => new Float64Array(count * KINDS);
  const keys = routesOf(plan);
  const rates = {
    stock: by(routes),
    atEgress: by(routes),
    reserve: by(routes),
    rest: by(routes),
    restMore: by(routes),
    hatch: by(routes),
    hatchMore: by(routes),
    task: by(tasks * routes),
    taskMore: by(tasks * routes),
    way: keys.map(() => by(ways.size * ways.size)),
    wayMore: keys.map(() => by(ways.size * ways.size)),
  };
  wornOn(plan, ways, keys).forEach((worn, r) => {
    const member = plan.crew[keys[r]!.member]!;
    const suit = plan.suits.find((one) => one.id === member.suit)!;
    // Rates are rounded up to whole units; over a million watts what rounding adds is gone.
    const none = drawPerSecond(suit, 0);
    const much = drawPerSecond(suit, 1e6);
    const full = stocks(suit);
    const kept = reserves(full, suit.reserve);
    const put = (base: Float64Array, more: Float64Array, at: number, { draws, metabolicW }: Rate): void => {
      CONSUMABLES.forEach((kind, k) => {
        base[at * KINDS + k] = draws[k]!;
        more[at * KINDS + k] = ((much[kind] - none[kind]) / 1e6) * metabolicW;
      });
    };
    CONSUMABLES.forEach((kind, k) => {
      rates.stock[r * KINDS + k] = full[kind];
      rates.atEgress[r * KINDS + k] = full[kind] - (kind === "oxygen" ? purgeOf(suit) : 0);
      rates.reserve[r * KINDS + k] = kept[kind];
    });
    put(rates.rest, rates.restMore, r, worn.rest);
    put(rates.hatch, rates.hatchMore, r, worn.hatch);
    plan.tasks.forEach((task, a) => put(rates.task, rates.taskMore, a * routes + r, worn.work(task)));
    ways.slopeRad.forEach((slope, cell) => {
      if (ways.durationS[cell]! > 0) put(rates.way[r]!, rates.wayMore[r]!, cell, worn.way(slope));
    });
  });
  return rates;
}
