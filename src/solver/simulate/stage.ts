import { CONSUMABLES, drawPerSecond, purgeOf, reserves, stocks } from "../../physics/index.ts";
import { type Plan, remedyHost, suitOn } from "../../plan/index.ts";
import { insideOf } from "../../terrain/index.ts";
import { openingsOf } from "../problem/openings.ts";
import { gapsOf, routesOf } from "../problem/outings.ts";
import { openingsFrom } from "../problem/starts.ts";
import { type Rate, suitRatesOn } from "../problem/suitrates.ts";
import { KINDS, type Openings, type Problem } from "../problem/problem.ts";

/**
 * What every simulated day of a plan is played on, whatever its schedule: openings, ties, limits and what everything draws.
 * Flat arrays, made once. Its openings are those of the start with the likely duration, without pins and to the second.
 */
export interface Stage extends Openings {
  readonly problem: Problem;
  readonly lowS: Int32Array;
  /** What the openings were made with. */
  readonly likelyS: Int32Array;
  readonly highS: Int32Array;
  /** 1 where windows, sun or relay bind the activity, and where the planner fixed its start. */
  readonly windowed: Uint8Array;
  readonly pinned: Uint8Array;
  /** 1 for what has happened by the moment that the days are told from: done at its planned start, for as long as it is given. */
  readonly given: Uint8Array;
  /** Ties by the later activity: first by activity, one more entry; and by the earlier one, as a list of ties. */
  readonly tieStart: Int32Array;
  readonly ties: Ties;
  readonly tiesOutOf: readonly (readonly number[])[];
  /** By activity: the one at whose end it may be made good; -1 for none. And by that one all that may be, in the plan's order. */
  readonly hostOf: Int32Array;
  readonly remediesAt: readonly (readonly number[])[];
  /** From ingress complete to the next egress of anybody in common, s. */
  readonly leastPauseS: number;
  /** Stretches between blocks in which each EVA may be out. */
  readonly gaps: readonly (readonly { readonly fromS: number; readonly toS: number }[])[];
  readonly rates: Rates;
}

/** Lags from one end of an activity to one end of another; -Infinity and Infinity where there is no bound. */
interface Ties {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly fromEnd: Uint8Array;
  readonly toEnd: Uint8Array;
  readonly leastS: Float64Array;
  readonly greatestS: Float64Array;
}

/**
 * Draws per second by kind: whole at the planned work rate, and how much one whole planned rate more would add (not whole).
 * Rest, airlock work: by route. Tasks: by activity and route. Ways: by route, then by cell.
 */
interface Rates {
  readonly stock: Float64Array;
  /** The stock less what the purge takes. */
  readonly atEgress: Float64Array;
  readonly reserve: Float64Array;
  readonly rest: Float64Array;
  readonly restMore: Float64Array;
  readonly airlock: Float64Array;
  readonly airlockMore: Float64Array;
  readonly task: Float64Array;
  readonly taskMore: Float64Array;
  readonly way: readonly Float64Array[];
  readonly wayMore: readonly Float64Array[];
}

/** The stage for days of `problem`. */
export function stageOf(problem: Problem): Stage {
  const { plan } = problem;
  const { recharge } = plan.rules;
  return {
    problem,
    lowS: lowsOf(problem),
    likelyS: Int32Array.from(plan.tasks, ({ duration }) => duration.likelyS),
    highS: Int32Array.from(plan.tasks, ({ duration }) => duration.highS ?? duration.likelyS),
    ...unpinned(plan, problem),
    windowed: Uint8Array.from(plan.tasks, (task) =>
      task.windows.length > 0 || task.pet || task.sun !== undefined || task.relay ? 1 : 0,
    ),
    pinned: Uint8Array.from(plan.tasks, (task) => (task.pin?.startS === undefined ? 0 : 1)),
    given: new Uint8Array(problem.activities),
    ...tiesOf(plan, problem),
    ...remediesOf(plan),
    leastPauseS: recharge.level === "breach" ? recharge.leastS : 0,
    gaps: gapsOf(plan),
    rates: ratesOf(plan, problem),
  };
}

function remediesOf({ tasks }: Plan): Pick<Stage, "hostOf" | "remediesAt"> {
  const index = new Map(tasks.map(({ id, crew }, a) => [id, crew.count > 0 ? a : -1]));
  const hostOf = Int32Array.from(tasks, (task) => index.get(remedyHost(task) ?? "") ?? -1);
  const remediesAt = tasks.map((): number[] => []);
  hostOf.forEach((h, b) => remediesAt[h]?.push(b));
  return { hostOf, remediesAt };
}

function mark(needed: Uint8Array, needs: Problem["needs"], a: number): void {
  if (needed[a] === 1) return;
  needed[a] = 1;
  for (const b of needs[a]!) mark(needed, needs, b);
}

/**
 * What is needed where `placed` are: must-do work, the members of a group of which no more than must be are placed, and what these need. What
 * only must-do work on the bench needs is not: nothing comes of it, and it would be done at the cost of must-do work that is placed.
 */
export function neededWith({ problem }: Stage, placed: Uint8Array): Uint8Array {
  const { activities, groups, must, needs } = problem;
  const needed = new Uint8Array(activities);
  for (let a = 0; a < activities; a += 1) if (must[a] === 1 && placed[a] === 1) mark(needed, needs, a);
  groups?.members.forEach((list, g) => {
    const there = list.filter((a) => placed[a] === 1);
    if (there.length <= groups.least[g]!) there.forEach((a) => mark(needed, needs, a));
  });
  return needed;
}

/** The shortest that each task may turn out, s: no day has one shorter than what is walked in it. */
export function lowsOf({ plan, ways }: Problem): Int32Array {
  return Int32Array.from(plan.tasks, (task) => {
    const { likelyS, lowS = likelyS } = task.duration;
    const { leastS } = insideOf(ways, task, plan.rules.walking.speedMs);
    return task.crew.count === 0 ? lowS : Math.min(likelyS, Math.max(lowS, leastS));
  });
}

/** When each task may start but for pins, to the second; the problem's own windows where nothing is pinned to a moment. */
function unpinned(plan: Plan, problem: Problem): Openings {
  if (plan.tasks.every((task) => task.pin?.startS === undefined)) return problem.windows;
  const openingOf = openingsOf(plan);
  return openingsFrom(plan.tasks.map((task) => openingOf({ ...task, pin: undefined })));
}

/** Lags of links and hot keep-outs between activities. */
function tiesOf(plan: Plan, problem: Problem): Pick<Stage, "tieStart" | "ties" | "tiesOutOf"> {
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
  const kept = list.filter(({ from, to }) => from !== to).sort((x, y) => x.to - y.to);
  const tieStart = new Int32Array(problem.activities + 1);
  for (const { to } of kept) tieStart[to + 1]! += 1;
  for (let a = 0; a < problem.activities; a += 1) tieStart[a + 1]! += tieStart[a]!;
  return {
    tieStart,
    tiesOutOf: Array.from({ length: problem.activities }, (_, a) =>
      kept.flatMap(({ from }, t) => (from === a ? [t] : [])),
    ),
    ties: {
      from: Int32Array.from(kept, (one) => one.from),
      to: Int32Array.from(kept, (one) => one.to),
      fromEnd: Uint8Array.from(kept, (one) => one.ends[0]),
      toEnd: Uint8Array.from(kept, (one) => one.ends[1]),
      leastS: Float64Array.from(kept, (one) => one.leastS),
      greatestS: Float64Array.from(kept, (one) => one.greatestS),
    },
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
    airlock: by(routes),
    airlockMore: by(routes),
    task: by(tasks * routes),
    taskMore: by(tasks * routes),
    way: keys.map(() => by(ways.size * ways.size)),
    wayMore: keys.map(() => by(ways.size * ways.size)),
  };
  suitRatesOn(plan, ways, keys).forEach((suitRates, r) => {
    const { eva, member } = keys[r]!;
    const suit = suitOn(plan, plan.evas[eva]!, plan.crew[member]!.id)!;
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
    put(rates.rest, rates.restMore, r, suitRates.rest);
    put(rates.airlock, rates.airlockMore, r, suitRates.airlock);
    plan.tasks.forEach((task, a) => put(rates.task, rates.taskMore, a * routes + r, suitRates.work(task)));
    ways.slopeRad.forEach((_, cell) => {
      if (ways.durationS[cell]! > 0) put(rates.way[r]!, rates.wayMore[r]!, cell, suitRates.way(cell));
    });
  });
  return rates;
}
