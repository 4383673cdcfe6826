import { purgeOf } from "../../physics/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type Consumption, KINDS } from "./problem.ts";
import type { RouteKey } from "./outings.ts";
import type { Inside } from "../../terrain/index.ts";
import type { LegTable } from "./ground.ts";
import type { SuitRates } from "./suitrates.ts";
import { peaksOf, walkbackDraws, wayDrawsOf } from "./waydraws.ts";

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
    const ways = wayDrawsOf(suit, this.ground);
    const inner = this.inner(r, suit);
    const work = plan.tasks.map((task) => suit.work(task).draws);
    for (let kind = 0; kind < KINDS; kind += 1) {
      const at = r * KINDS + kind;
      const rest = suit.rest.draws[kind]!;
      const airlock = suit.airlock.draws[kind]!;
      draws.restRate[at] = rest;
      draws.airlockRate[at] = airlock - rest;
      draws.dearest[at] = Math.max(mostOf(ways.home, kind), mostOf(ways.peak, kind), mostOf(inner, kind));
      let greatest = Math.max(0, rest, airlock, ways.greatest[kind]!);
      plan.tasks.forEach((task, a) => {
        const drawn = work[a]![kind]!;
        if (drawn > greatest) greatest = drawn;
        draws.task[(a * this.count + r) * KINDS + kind] = (drawn - rest) * task.duration.likelyS;
      });
      this.bind(r, kind, greatest * this.longestOutS, draws.dearest[at]!);
    }
    this.leg.push(ways.leg);
    this.home.push(ways.home);
    this.peak.push(ways.peak);
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

  /** What the walk-backs from inside tasks draw, where they are longer than from both ends. */
  private inner(r: number, suit: SuitRates): Float64Array {
    const { ground, draws, count, insides } = this;
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
    return inner;
  }

  done(): Consumption {
    const { draws, leg, home, peak } = this;
    const { size } = this.ground.ways;
    const peakAt = new Int32Array(size * size).fill(-1);
    peaksOf(this.ground).forEach((cell, k) => {
      peakAt[cell] = k;
    });
    // The walk-back is tested against what the board keeps of draws, and at the lander it is the reserve itself.
    draws.walkbackBinds.forEach((one, kind) => {
      if (one === 1) draws.kindBinds[kind] = 1;
    });
    return { ...draws, leg, home, peakAt, peak, binds: draws.kindBinds.includes(1) };
  }
}

/** The greatest of one kind in a flat list times kinds. */
function mostOf(list: Float64Array, kind: number): number {
  let most = 0;
  for (let at = kind; at < list.length; at += KINDS) most = Math.max(most, list[at]!);
  return most;
}
