import { random, type Random, type Shape } from "../../kernel/index.ts";
import { type Mishap, mishapsOf, type Odds, type Remedy, remedyHost } from "../../plan/index.ts";
import type { Problem } from "../problem/problem.ts";
import { lowsOf } from "./stage.ts";
import { quantilesOf, stepOf as step, STEPS as STEP_COUNT } from "./quantiles.ts";

// Read in the innermost loops: local, as an import may cost a call there.
const STEPS = STEP_COUNT;
const stepOf = step;

/**
 * Simulated days, each drawn when it is first asked for and the same for every schedule (common random numbers). Lateness is shared: the deviate
 * of a duration is made of a part of the day, of each crew member on an EVA and of the task's own, that of a work rate
 * of the same parts, so that the squares of the parts add up to one (a normal copula; the shares are project choices of the plan).
 */
export class Days implements Dealt {
  readonly count: number;
  private readonly problem: Problem;
  /** By activity and step, whole seconds, the begun one counted: never shorter than drawn. */
  private readonly durations: Int32Array;
  /** By route and step: work rate over the planned one, less one. */
  private readonly rates: Float64Array;
  private readonly parts: Parts;
  private readonly stream: Random;
  /** What makes good what went wrong, by the activity at whose end it is done, and its durations by step. */
  private readonly remedies: readonly (readonly { readonly of: number; readonly at: number }[])[];
  private readonly remedyDurations: Int32Array;
  /** What may go wrong, by task, and its numbers from 0 to 1 by day; drawn apart, so that all else stays as it is without. */
  private readonly mishaps: readonly { readonly activity: number; readonly mishap: Mishap }[];
  private readonly ofMishap: Float64Array;
  private readonly rareStream: Random;
  private drawn = 0;
  // Standard normal deviates by day: of the day, then by route (pace and work rate), activity, slot.
  private readonly ofDay: Float32Array;
  private readonly rateOfDay: Float32Array;
  private readonly ofOuting: Float32Array;
  private readonly rateOfOuting: Float32Array;
  private readonly ofTask: Float32Array;
  private readonly ofSlot: Float32Array;

  constructor(problem: Problem, shape: Shape, count: number, seed: number) {
    const { plan, activities, routes, slots } = problem;
    this.problem = problem;
    this.count = count;
    this.parts = partsOf(plan.odds.lateness);
    this.durations = new Int32Array(activities * STEPS);
    const lowS = lowsOf(problem);
    plan.tasks.forEach(({ duration: { likelyS, highS } }, a) =>
      put(this.durations, a, quantilesOf(shape, lowS[a]!, likelyS, highS ?? likelyS)),
    );
    const remedies = remediesIn(problem);
    this.remedies = plan.tasks.map((_, a) => remedies.filter(({ host }) => host === a));
    this.remedyDurations = new Int32Array(remedies.length * STEPS);
    remedies.forEach(({ at, remedy: { duration } }) => {
      const { likelyS, lowS: low = likelyS, highS: high = likelyS } = duration;
      put(this.remedyDurations, at, quantilesOf(shape, low, likelyS, high));
    });
    this.rates = new Float64Array(routes * STEPS);
    for (let r = 0; r < routes; r += 1) {
      const wide = plan.crew[problem.memberOfRoute[r]!]!.workRateSpread;
      this.rates.set(quantilesOf(shape, -wide, 0, wide), r * STEPS);
    }
    this.ofDay = new Float32Array(count);
    this.rateOfDay = new Float32Array(count);
    this.ofOuting = new Float32Array(count * routes);
    this.rateOfOuting = new Float32Array(count * routes);
    this.ofTask = new Float32Array(count * activities);
    this.ofSlot = new Float32Array(count * slots);
    this.stream = random(seed);
    this.mishaps = plan.tasks.flatMap((task, activity) =>
      mishapsOf(plan, task).map((mishap) => ({ activity, mishap })),
    );
    this.ofMishap = new Float64Array(count * this.mishaps.length);
    this.rareStream = random(seed ^ RARE);
  }

  /** Draws the next day; day after day, so that the first days of many are those of few. */
  private drawNext(): void {
    const { stream, drawn: day } = this;
    const { activities, routes, slots } = this.problem;
    fill(this.ofDay, day, 1, stream);
    fill(this.rateOfDay, day, 1, stream);
    fill(this.ofOuting, day, routes, stream);
    fill(this.rateOfOuting, day, routes, stream);
    fill(this.ofTask, day, activities, stream);
    fill(this.ofSlot, day, slots, stream);
    const rare = this.mishaps.length;
    for (let i = day * rare; i < (day + 1) * rare; i += 1) this.ofMishap[i] = this.rareStream.next();
    this.drawn += 1;
  }

  /** Puts day number `day` into `draws` for a schedule whose slots stand on `laneOf`. */
  deal(day: number, order: Int32Array, laneOf: Int32Array, draws: DaySample): void {
    while (this.drawn <= day) this.drawNext();
    const { problem, parts, durations, rates } = this;
    const { routes, activities, slots, slotStart, crewCount } = problem;
    const dayZ = parts.day * this.ofDay[day]!;
    const atRoute = day * routes;
    for (let r = 0; r < routes; r += 1) draws.routeMore[r] = rates[r * STEPS + stepOf(this.paceZ(day, r))]!;
    for (let p = 0; p < order.length; p += 1) {
      const a = order[p]!;
      const crew = crewCount[a]!;
      const first = slotStart[a]!;
      let outings = 0;
      for (let s = first; s < first + crew; s += 1) {
        const r = laneOf[s]!;
        outings += this.ofOuting[atRoute + r]!;
        const z = parts.shared * this.paceZ(day, r) + parts.own * this.ofSlot[day * slots + s]!;
        draws.slotMore[s] = rates[r * STEPS + stepOf(z)]!;
      }
      const own = this.ofTask[day * activities + a]!;
      const z =
        crew === 0
          ? dayZ + parts.remote * own
          : dayZ + (parts.outing * outings) / Math.sqrt(crew) + parts.own * own;
      draws.durationS[a] = durations[a * STEPS + stepOf(z)]!;
      for (const { of, at } of this.remedies[a]!)
        draws.remedyS[of] = this.remedyDurations[at * STEPS + stepOf(z)]!;
    }
    if (this.mishaps.length > 0) this.goWrong(day, draws);
  }

  /** What goes wrong on day number `day` (O11). */
  private goWrong(day: number, draws: DaySample): void {
    const { mishaps, ofMishap } = this;
    draws.spoilt.fill(0);
    for (let i = 0; i < mishaps.length; i += 1) {
      const { activity, mishap } = mishaps[i]!;
      if (ofMishap[day * mishaps.length + i]! >= mishap.chance) continue;
      draws.durationS[activity]! += mishap.extraS ?? 0;
      if (mishap.spoils !== true) continue;
      const mends = draws.spoilt[activity] !== LOST && "remedy" in mishap && mishap.remedy !== undefined;
      draws.spoilt[activity] = mends ? MENDABLE : LOST;
    }
  }

  /** What the walker of route `r` has in common with themselves all day: their deviate of egress, walking and waiting. */
  private paceZ(day: number, r: number): number {
    const { parts } = this;
    const outing = this.rateOfOuting[day * this.problem.routes + r]!;
    if (parts.shared === 0) return outing;
    return (parts.day * this.rateOfDay[day]! + parts.outing * outing) / parts.shared;
  }
}

/** Simulated days that can be dealt out one by one. */
export interface Dealt {
  readonly count: number;
  deal(day: number, order: Int32Array, laneOf: Int32Array, draws: DaySample): void;
}

/** Something goes so wrong that it is not done: for good, or until it is made good. */
const LOST = 1;
export const MENDABLE = 2;

/**
 * What one simulated day is given: durations by activity, 0, LOST or MENDABLE by activity, how long it takes to make it good (read where it
 * is MENDABLE); work rates less one by crew slot and by route.
 */
export interface DaySample {
  readonly durationS: Int32Array;
  readonly spoilt: Uint8Array;
  readonly remedyS: Int32Array;
  readonly slotMore: Float64Array;
  readonly routeMore: Float64Array;
}

/** Room for a day of `problem`. */
export function sampleFor({ activities, slots, routes }: Problem): DaySample {
  return {
    durationS: new Int32Array(activities),
    spoilt: new Uint8Array(activities),
    remedyS: new Int32Array(activities),
    slotMore: new Float64Array(slots),
    routeMore: new Float64Array(routes),
  };
}

/** Weights of deviates; their squares are the shares of the variance. */
interface Parts {
  readonly day: number;
  readonly outing: number;
  readonly own: number;
  /** Of work without crew, which is on nobody's outing. */
  readonly remote: number;
  /** Of day and outing together. */
  readonly shared: number;
}

function partsOf({ day, outing }: Odds["lateness"]): Parts {
  return {
    day: Math.sqrt(day),
    outing: Math.sqrt(outing),
    own: Math.sqrt(Math.max(0, 1 - day - outing)),
    remote: Math.sqrt(1 - day),
    shared: Math.sqrt(day + outing),
  };
}

/** Sets the stream of what goes wrong apart from that of durations. */
const RARE = 0x5eed;

/** What a quantile may be off by: a whole number of seconds stays one. */
const SLACK = 1e-6;

/** What may have to be made good (S19): of which activity, at the end of which. */
function remediesIn({ plan }: Problem): { of: number; host: number; at: number; remedy: Remedy }[] {
  const index = new Map(plan.tasks.map(({ id }, a) => [id, a]));
  return plan.tasks
    .flatMap((task, of) => {
      const host = index.get(remedyHost(task) ?? "");
      const remedy = task.mishap?.remedy;
      return host === undefined || !remedy ? [] : [{ of, host, remedy }];
    })
    .map((one, at) => ({ ...one, at }));
}

/** Row `row` of durations by step, never shorter than drawn. */
function put(into: Int32Array, row: number, quantiles: ArrayLike<number>): void {
  for (let i = 0; i < STEPS; i += 1) into[row * STEPS + i] = Math.ceil(quantiles[i]! - SLACK);
}

/** Draws the `each` deviates of `day`. */
function fill(into: Float32Array, day: number, each: number, stream: Random): void {
  for (let i = day * each; i < (day + 1) * each; i += 1) into[i] = normal(stream);
}

/** A standard normal deviate (Box & Muller 1958, Ann Math Stat 29:610). */
function normal(stream: Random): number {
  const u = 1 - stream.next();
  return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * stream.next());
}
