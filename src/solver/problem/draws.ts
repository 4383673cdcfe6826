import { purgeOf } from "../../physics/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type Consumption, KINDS } from "./problem.ts";
import type { RouteKey } from "./outings.ts";
import type { Inside } from "../../terrain/index.ts";
import type { LegTable } from "./ground.ts";
import type { SuitRates } from "./suitrates.ts";

/**
 * What everything draws over standing still (S6, S7), and which consumables can run short at all: one whose greatest
 * rate over the longest possible outing stays within what is available never binds and is left out.
 */
export function consumptionOf(
  plan: Plan,
  ground: LegTable,
  routes: readonly RouteKey[],
  suitRates: readonly SuitRates[],
  longestOutS: number,
  insides: readonly Inside[],
): Consumption {
  const writer = new Writer(plan, ground, routes.length, longestOutS, insides);
  // Where nothing differs, nothing is worked out again.
  const like = new Map<SuitRates, number>();
  routes.forEach((_, r) => {
    const suit = suitRates[r]!;
    const same = like.get(suit);
    writer.stocks(r);
    if (same !== undefined) return writer.copy(r, same);
    like.set(suit, r);
    writer.work(r, suit);
  });
  return writer.done();
}

/** The draws while they are written, route by route. */
class Writer {
  private readonly draws;
  private readonly home: Float64Array[] = [];
  private readonly peak: Float64Array[] = [];
  private readonly leg: Float64Array[] = [];
  private readonly peaks: readonly number[];
  private readonly plan: Plan;
  private readonly ground: LegTable;
  private readonly count: number;
  private readonly longestOutS: number;
  private readonly insides: readonly Inside[];

  constructor(plan: Plan, ground: LegTable, count: number, longestOutS: number, insides: readonly Inside[]) {
    const tasks = plan.tasks.length;
    this.plan = plan;
    this.ground = ground;
    this.count = count;
    this.longestOutS = longestOutS;
    this.insides = insides;
    this.draws = {
      available: new Float64Array(count * KINDS),
      availableBack: new Float64Array(count * KINDS),
      full: new Float64Array(count * KINDS),
      reserve: new Float64Array(count * KINDS),
      dearest: new Float64Array(count * KINDS),
      restRate: new Float64Array(count * KINDS),
      airlockRate: new Float64Array(count * KINDS),
      purged: new Float64Array(count * KINDS),
      task: new Float64Array(tasks * count * KINDS),
      inner: new Float64Array(tasks * count * KINDS),
      kindBinds: new Uint8Array(KINDS),
      walkbackBinds: new Uint8Array(KINDS),
    };
    this.peaks = peaksOf(ground);
  }

  /** What the route's suit holds. */
  stocks(r: number): void {
    const { draws } = this;
    const own = this.ground.walkers[r]!;
    draws.purged[r * KINDS] = purgeOf(own.suit);
    own.stock.forEach((stock, kind) => {
      draws.full[r * KINDS + kind] = stock + draws.purged[r * KINDS + kind]!;
      draws.reserve[r * KINDS + kind] = own.kept[kind]!;
    });
  }

  /** A route on which the suit draws as on route `same`. */
  copy(r: number, same: number): void {
    const { draws, count } = this;
    const once = [draws.available, draws.availableBack, draws.dearest, draws.restRate, draws.airlockRate];
    for (const row of once) row.copyWithin(r * KINDS, same * KINDS, (same + 1) * KINDS);
    for (const row of [draws.task, draws.inner])
      for (let at = 0; at < row.length; at += count * KINDS)
        row.copyWithin(at + r * KINDS, at + same * KINDS, at + (same + 1) * KINDS);
    for (const list of [this.leg, this.home, this.peak]) list.push(list[same]!);
  }

  /** A route on which nobody has drawn like this yet. */
  work(r: number, suit: SuitRates): void {
    const { plan, draws } = this;
    const { standsFor } = this.ground;
    const rest = suit.rest.draws;
    const back = this.walkbacks(r, suit);
    const walk = new Map([...new Set(standsFor)].map((cell) => [cell, suit.way(cell).draws]));
    const work = plan.tasks.map((task) => suit.work(task).draws);
    const all = [rest, suit.airlock.draws, ...walk.values(), ...work];
    for (let kind = 0; kind < KINDS; kind += 1) {
      const at = r * KINDS + kind;
      draws.restRate[at] = rest[kind]!;
      draws.airlockRate[at] = suit.airlock.draws[kind]! - rest[kind]!;
      const farthest = Math.max(...back.map((list) => mostOf(list, kind)));
      draws.dearest[at] = farthest;
      this.bind(
        r,
        kind,
        all.reduce((most, one) => Math.max(most, one[kind]!), 0) * this.longestOutS,
        farthest,
      );
    }
    plan.tasks.forEach((task, a) => {
      for (let kind = 0; kind < KINDS; kind += 1)
        draws.task[(a * this.count + r) * KINDS + kind] =
          (work[a]![kind]! - rest[kind]!) * task.duration.likelyS;
    });
    this.leg.push(this.legDraws(walk, rest));
  }

  /** What the route has available of a kind, and whether `greatest` over the longest outing, or with the way home, uses it up. */
  private bind(r: number, kind: number, greatest: number, farthest: number): void {
    const { walkback, reserve } = this.plan.rules;
    const { draws } = this;
    const own = this.ground.walkers[r]!;
    const at = r * KINDS + kind;
    // The walk-back rule asks for the reserve at the lander too; where a rule is a warning a stock still may not run out (S9).
    const keptBack = walkback.level === "breach" ? 1 : 0;
    const kept = reserve.level === "breach" ? 1 : keptBack;
    draws.available[at] = own.stock[kind]! - kept * own.kept[kind]!;
    draws.availableBack[at] = own.stock[kind]! - keptBack * own.kept[kind]!;
    if (greatest > draws.available[at]!) draws.kindBinds[kind] = 1;
    if (greatest + farthest > draws.availableBack[at]!) draws.walkbackBinds[kind] = 1;
  }

  /** What the walk-backs draw from places, from the worst points of ways, and from inside tasks. */
  private walkbacks(r: number, suit: SuitRates): readonly Float64Array[] {
    const { ground, draws, count, insides, peaks } = this;
    const home = walkbackDraws(suit, ground.homeS, ground.homeSlopeRad);
    const peak = walkbackDraws(
      suit,
      peaks.map((cell) => ground.peakS[cell]!),
      peaks.map((cell) => ground.peakSlopeRad[cell]!),
    );
    this.home.push(home);
    this.peak.push(peak);
    const insideHome = insides.map((inside) => ground.insideHome(inside));
    const inner = walkbackDraws(
      suit,
      insides.map(({ from, to }, a) => {
        const { seconds } = insideHome[a]!;
        return seconds > Math.max(ground.homeS[from]!, ground.homeS[to]!) ? seconds : 0;
      }),
      insideHome.map(({ slopeRad }) => slopeRad),
    );
    for (let a = 0; a < insides.length; a += 1)
      draws.inner.set(inner.subarray(a * KINDS, (a + 1) * KINDS), (a * count + r) * KINDS);
    return [home, peak, inner];
  }

  /** What each way draws over standing still, flat times kinds. */
  private legDraws(walk: ReadonlyMap<number, readonly number[]>, rest: readonly number[]): Float64Array {
    const { standsFor } = this.ground;
    const { durationS, size } = this.ground.ways;
    const legs = new Float64Array(size * size * KINDS);
    for (let cell = 0; cell < size * size; cell += 1) {
      const seconds = durationS[cell]!;
      if (seconds <= 0) continue;
      const drawn = walk.get(standsFor[cell]!)!;
      for (let kind = 0; kind < KINDS; kind += 1)
        legs[cell * KINDS + kind] = (drawn[kind]! - rest[kind]!) * seconds;
    }
    return legs;
  }

  done(): Consumption {
    const { draws, leg, home, peak } = this;
    const { size } = this.ground.ways;
    const peakAt = new Int32Array(size * size).fill(-1);
    this.peaks.forEach((cell, k) => {
      peakAt[cell] = k;
    });
    // The walk-back is tested against what the board keeps of draws, and at the lander it is the reserve itself.
    draws.walkbackBinds.forEach((one, kind) => {
      if (one === 1) draws.kindBinds[kind] = 1;
    });
    return { ...draws, leg, home, peakAt, peak, binds: draws.kindBinds.includes(1) };
  }
}

/** All that walk-backs of so many seconds on their slopes draw, flat times kinds. */
function walkbackDraws(
  suit: SuitRates,
  seconds: ArrayLike<number>,
  slopeRad: ArrayLike<number>,
): Float64Array {
  const drawn = new Float64Array(seconds.length * KINDS);
  for (let i = 0; i < seconds.length; i += 1) {
    const { draws } = suit.back(slopeRad[i]!);
    for (let kind = 0; kind < KINDS; kind += 1)
      drawn[i * KINDS + kind] = draws[kind]! * Math.max(0, seconds[i]!);
  }
  return drawn;
}

/** The entries of the ways whose worst walk-back is longer than from both ends. */
function peaksOf({ ways, homeS, peakS }: LegTable): number[] {
  const { size } = ways;
  const list: number[] = [];
  for (let cell = 0; cell < size * size; cell += 1)
    if (peakS[cell]! > Math.max(homeS[Math.floor(cell / size)]!, homeS[cell % size]!)) list.push(cell);
  return list;
}

/** The greatest of one kind in a flat list times kinds. */
function mostOf(list: Float64Array, kind: number): number {
  let most = 0;
  for (let at = kind; at < list.length; at += KINDS) most = Math.max(most, list[at]!);
  return most;
}
