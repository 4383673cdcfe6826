import type { Problem } from "../problem/problem.ts";
import { commonDivisor } from "./bound.ts";
import { byCrewTime } from "./crewtime.ts";
import { type Relation, relationsOf } from "./relations.ts";
import type { RouteClass, RouteSum } from "./routes.ts";
import { NgRoutes } from "./walks.ts";

/**
 * An upper bound on worth where routes are long: everything that ties a route together but its times has a price, as have the activities
 * themselves, and what is left is the best walk of each class (Lagrangian relaxation: Held & Karp 1971, Math Program 1:6). Any prices bound;
 * they follow the subgradient with Polyak's steps (1969, USSR Comput Math Math Phys 9:14), so that the work can be stopped at any time.
 */

/**
 * From rough to fine: the first step, in parts of the distance to the best known worth, and where to give up; steps of time; and how much
 * a node remembers.
 */
const LEVELS = [
  { step: 8, least: 4, times: 200, memory: 2 },
  { step: 8, least: 2, times: 200, memory: 4 },
  { step: 8, least: 0.1, times: 1000, memory: 5 },
];
/** Steps grow so long as they lead down, up to so much. */
const GROWTH = 1.5;
const MOST_STEP = 60;
/** Evaluations without a lower bound after which steps are halved. */
const PATIENCE = 12;
/** Less than this is not lower, in worth. */
const NOTHING = 0.01;
/** Evaluations on one level. */
const MOST_TURNS = 3000;
/** Part of the last direction in the next one. */
const MEMORY = 0.85;
/** More than the rounding of all sums together, in worth. */
const SLIP = 1e-5;

/** A sum along a route, in units of what a visit takes of it in the mean. */
interface Part {
  readonly isTime: boolean;
  readonly unit: number;
  readonly limit: number;
  readonly node: Float64Array;
  readonly leg: Float64Array;
}

/** A visit of one crew member to activity `a`. */
interface Visit {
  readonly a: number;
  readonly takesS: number;
  readonly each: number;
}

export class Ascent {
  /** No schedule that has every must-do task (where `musts`) is worth more; Infinity while nothing is known. */
  worth = Infinity;
  readonly usable: boolean;
  private readonly problem: Problem;
  private readonly classes: readonly RouteClass[];
  private readonly musts: boolean;
  private readonly levels: readonly (readonly NgRoutes[])[];
  private ngRoutes: readonly NgRoutes[];
  private readonly relations: readonly Relation[];
  private readonly parts: readonly (readonly Part[])[];
  /** Prices: of the activities, then of the relations, then by class of its sums. */
  private readonly price: Float64Array;
  private readonly slope: Float64Array;
  private readonly partAt: readonly number[];
  private readonly steady: number;
  private readonly common: number;

  constructor(given: Problem, musts: boolean, classes: readonly RouteClass[]) {
    const { problem, more } = byCrewTime(given, classes, musts);
    this.problem = problem;
    this.classes = classes;
    this.musts = musts;
    this.levels = LEVELS.map(({ times, memory }) => classes.map((one) => new NgRoutes(one, times, memory)));
    this.ngRoutes = this.levels[0]!;
    this.usable = this.levels[0]!.every((walks) => walks.usable);
    this.relations = relationsOf(problem);
    this.parts = classes.map(partsOf);
    const partAt: number[] = [];
    let at = problem.activities + this.relations.length;
    for (const parts of this.parts) {
      partAt.push(at);
      at += parts.length;
    }
    this.partAt = partAt;
    this.price = new Float64Array(at);
    this.slope = new Float64Array(at);
    this.common = commonDivisor(problem.worth, more);
    let steady = more;
    for (let a = 0; a < problem.activities; a += 1)
      if (problem.crewCount[a] === 0) steady += problem.worth[a]!;
    this.steady = steady;
  }

  /** Lowers `worth` until it reaches `enough`, which may grow, or prices give no better; yields often. */
  *run(enough: () => number): Generator<void> {
    if (!this.usable) return;
    this.begin();
    for (const [level, walks] of this.levels.entries()) {
      if (!walks.every(({ usable }) => usable)) return;
      yield* this.descend(level, enough);
      if (this.worth <= enough()) return;
    }
  }

  /** Follows the subgradient on a level until steps get short; prices end at the best. */
  private *descend(level: number, enough: () => number): Generator<void> {
    const { price } = this;
    const { step: first, least: leastStep } = LEVELS[level]!;
    if (level > 0) this.levels[level]!.forEach((walks, q) => walks.remember(this.ngRoutes[q]!));
    this.ngRoutes = this.levels[level]!;
    const best = price.slice();
    const direction = new Float64Array(price.length);
    let least = Infinity;
    let stalled = 0;
    let step = first;
    for (let turns = 0; step >= leastStep && turns < MOST_TURNS; turns += 1) {
      const bound = yield* this.evaluate();
      yield;
      const isLower = bound < least - NOTHING;
      stalled = isLower ? 0 : stalled + 1;
      if (isLower) step = Math.min(MOST_STEP, step * GROWTH);
      if (bound < least) {
        least = bound;
        best.set(price);
        this.lowerTo(bound);
      }
      if (this.worth <= enough()) return;
      if (stalled >= PATIENCE) {
        stalled = 0;
        step /= 2;
        price.set(best);
        direction.fill(0);
        yield* this.evaluate();
      }
      if (!this.follow(direction, step * Math.max(1, least - enough()))) break;
    }
    price.set(best);
  }

  /** Takes a lower bound over, and lets walks remember what came round again in it. */
  private lowerTo(bound: number): void {
    for (const walks of this.ngRoutes) walks.grow();
    this.worth = Math.min(this.worth, Math.floor(bound / this.common + SLIP) * this.common);
  }

  /** Goes `far` along the subgradient and part of the last direction; false where that is no direction. */
  private follow(direction: Float64Array, far: number): boolean {
    const { price, slope } = this;
    let square = 0;
    for (let k = 0; k < price.length; k += 1) {
      direction[k] = slope[k]! + MEMORY * direction[k]!;
      square += direction[k]! ** 2;
    }
    if (square < 1e-12) return false;
    const by = far / square;
    for (let k = 0; k < price.length; k += 1) {
      const next = price[k]! - by * direction[k]!;
      price[k] = this.mayBeNegative(k) ? next : Math.max(0, next);
    }
    return true;
  }

  /** What has to be done may cost. */
  private mayBeNegative(k: number): boolean {
    return this.musts && k < this.problem.activities && this.problem.must[k] === 1;
  }

  /** Prices by which time alone is short: the most worth per second first, as long as there is time. */
  private begin(): void {
    const { classes, price, parts, partAt } = this;
    const shortest = parts.map(shortestTime);
    let leftS = 0;
    classes.forEach((one, q) => {
      const part = parts[q]![shortest[q]!];
      if (part) leftS += one.routes.length * part.limit * part.unit;
    });
    const visits = this.visits();
    const rate = this.rateWithin(leftS, visits);
    for (const { a, takesS, each } of visits)
      price[a] = this.mayBeNegative(a) ? each - rate * takesS : Math.max(0, each - rate * takesS);
    parts.forEach((own, q) => {
      const k = shortest[q]!;
      if (k >= 0) price[partAt[q]! + k] = rate * own[k]!.unit;
    });
  }

  /** What can be visited, with the least time that takes one crew member and what it is worth to each; the most worth per second first. */
  private visits(): Visit[] {
    const { problem, classes } = this;
    const list: Visit[] = [];
    for (let a = 0; a < problem.activities; a += 1) {
      const crew = problem.crewCount[a]!;
      const takesS = crew === 0 ? Infinity : Math.min(...classes.map((one) => leastS(one, a)));
      if (takesS < Infinity) list.push({ a, takesS, each: problem.worth[a]! / crew });
    }
    return list.sort((x, y) => y.each / y.takesS - x.each / x.takesS);
  }

  /** The worth per second of the last visit that `leftS` seconds have time for; 0 where they have time for all. */
  private rateWithin(wholeS: number, visits: readonly Visit[]): number {
    let leftS = wholeS;
    let rate = 0;
    for (const { a, takesS, each } of visits) {
      if (leftS <= 0) return rate;
      leftS -= takesS * this.problem.crewCount[a]!;
      rate = each / takesS;
    }
    return leftS > 0 ? 0 : rate;
  }

  /** The bound at the prices as they are; `slope` becomes a subgradient. */
  private *evaluate(): Generator<void, number> {
    const { problem, classes, relations, price, slope } = this;
    const { activities } = problem;
    let bound = this.steady;
    slope.fill(0);
    for (let a = 0; a < activities; a += 1) {
      bound += price[a]! * problem.crewCount[a]!;
      slope[a] = problem.crewCount[a]!;
    }
    relations.forEach((one, k) => {
      bound += price[activities + k]! * one.limit;
      slope[activities + k] = one.limit;
    });
    for (let q = 0; q < classes.length; q += 1) bound = yield* this.evaluateClass(q, bound);
    return bound;
  }

  /** Adds to a bound what the sums of class `q` cost and its best walks gain. */
  private *evaluateClass(q: number, before: number): Generator<void, number> {
    const { price, slope } = this;
    const one = this.classes[q]!;
    const own = this.parts[q]!;
    const first = this.partAt[q]!;
    const walks = this.ngRoutes[q]!;
    const times = one.routes.length;
    const gain = Float64Array.from(one.activity, (a) => this.gainOf(a));
    let bound = before;
    own.forEach((part, k) => {
      bound += times * price[first + k]! * part.limit;
      slope[first + k] = times * part.limit;
    });
    const wanted = Uint8Array.from(gain, (value) => (value > 0 ? 1 : 0));
    bound += times * (yield* walks.most(this.arcsOf(q, gain), wanted));
    walks.trace((from, to) => this.noteStep(q, from, to));
    return bound;
  }

  /** What each step of a walk over class `q` gains: what its end gains, less what the step costs of the sums. */
  private arcsOf(q: number, gain: Float64Array): Float64Array {
    const { count } = this.classes[q]!;
    const size = count + 1;
    const arc = new Float64Array(size * size);
    for (let i = 0; i < size; i += 1) arc.set(gain, i * size);
    this.parts[q]!.forEach((part, k) => {
      const rate = this.price[this.partAt[q]! + k]!;
      if (rate === 0) return;
      for (let i = 0; i < size; i += 1)
        for (let c = 0; c < size; c += 1) arc[i * size + c]! -= rate * usedBy(part, i, c, count);
    });
    return arc;
  }

  /** Takes a step of the best walk over class `q` off the slope. */
  private noteStep(q: number, from: number, to: number): void {
    const { problem, relations, slope } = this;
    const one = this.classes[q]!;
    const first = this.partAt[q]!;
    const times = one.routes.length;
    this.parts[q]!.forEach((part, k) => (slope[first + k]! -= times * usedBy(part, from, to, one.count)));
    if (to === one.count) return;
    const a = one.activity[to]!;
    slope[a]! -= times;
    relations.forEach(({ share }, k) => {
      const part = share.get(a);
      if (part !== undefined) slope[problem.activities + k]! -= (times * part) / problem.crewCount[a]!;
    });
  }

  /** What one more visit to an activity gains at the prices. */
  private gainOf(a: number): number {
    const { problem, price, relations } = this;
    const crew = problem.crewCount[a]!;
    let gain = problem.worth[a]! / crew - price[a]!;
    relations.forEach(({ share }, k) => {
      const part = share.get(a);
      if (part !== undefined) gain -= (price[problem.activities + k]! * part) / crew;
    });
    return gain;
  }
}

/** What a step from a node to the next takes of a sum; node `count` is the lander. */
function usedBy({ leg, node }: Part, from: number, to: number, count: number): number {
  return leg[from * (count + 1) + to]! + (to < count ? node[to]! : 0);
}

/** Which of a class's sums of time is shortest; -1 where there is none. */
function shortestTime(parts: readonly Part[]): number {
  let least = -1;
  parts.forEach(({ isTime, limit, unit }, k) => {
    if (isTime && (least < 0 || limit * unit < parts[least]!.limit * parts[least]!.unit)) least = k;
  });
  return least;
}

/** Least time that activity `a` and the way to it take on a route of a class; Infinity where it cannot stand there. */
function leastS({ activity, count, legS, lastsS }: RouteClass, a: number): number {
  const j = activity.indexOf(a);
  let least = Infinity;
  for (let i = 0; j >= 0 && i <= count; i += 1)
    if (i !== j) least = Math.min(least, legS[i * (count + 1) + j]! + lastsS[j]!);
  return least;
}

/** The time out, then the sums of a class; seconds out are those of ways and activities, without waiting. */
function partsOf(one: RouteClass): Part[] {
  const out: RouteSum = {
    of: "work",
    available: Math.min(one.outS, one.backByS - one.leaveS),
    perSecond: 0,
    node: Float64Array.from(one.lastsS),
    leg: Float64Array.from(one.legS),
  };
  return [out, ...one.sums].flatMap(({ of, available, perSecond, node, leg }): Part[] => {
    if (available <= 0) return [];
    const nodes = node.map((value, c) => value + perSecond * one.lastsS[c]!);
    const legs = leg.map((value, at) => value + perSecond * one.legS[at]!);
    const size = one.count + 1;
    const visits = nodes.map((value, c) => {
      let leastLeg = Infinity;
      for (let i = 0; i < size; i += 1) if (i !== c) leastLeg = Math.min(leastLeg, legs[i * size + c]!);
      return value + leastLeg;
    });
    const unit = visits.reduce((sum, value) => sum + value, 0) / one.count;
    if (!(unit > 0)) return [];
    return [
      {
        isTime: of === "work",
        unit,
        limit: available / unit,
        node: nodes.map((value) => value / unit),
        leg: legs.map((value) => value / unit),
      },
    ];
  });
}
