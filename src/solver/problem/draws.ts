import { purgeOf } from "../../physics/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type Consumption, KINDS } from "./problem.ts";
import type { RouteKey } from "./outings.ts";
import type { Inside } from "../../terrain/index.ts";
import type { LegTable } from "./ground.ts";
import type { SuitRates } from "./worn.ts";

/**
 * What everything draws over standing still (S6, S7), and which consumables can run short at all: one whose greatest
 * rate over the longest possible outing stays within what is available never binds and is left out.
 */
export function consumptionOf(
  plan: Plan,
  ground: LegTable,
  routes: readonly RouteKey[],
  worn: readonly SuitRates[],
  longestOutS: number,
  insides: readonly Inside[],
): Consumption {
  const { walkback, reserve } = plan.rules;
  const { ways, walkers } = ground;
  const size = ways.size;
  const tasks = plan.tasks.length;
  const count = routes.length;
  const draws = {
    available: new Float64Array(count * KINDS),
    availableBack: new Float64Array(count * KINDS),
    full: new Float64Array(count * KINDS),
    reserve: new Float64Array(count * KINDS),
    dearest: new Float64Array(count * KINDS),
    restRate: new Float64Array(count * KINDS),
    hatchRate: new Float64Array(count * KINDS),
    purged: new Float64Array(count * KINDS),
    task: new Float64Array(tasks * count * KINDS),
    inner: new Float64Array(tasks * count * KINDS),
    kindBinds: new Uint8Array(KINDS),
    walkbackBinds: new Uint8Array(KINDS),
  };
  // The walk-back rule asks for the reserve at the lander too; where a rule is a warning a stock still may not run out (S9).
  const keptBack = walkback.level === "breach" ? 1 : 0;
  const kept = reserve.level === "breach" ? 1 : keptBack;
  const peaks = peaksOf(ground);
  const peakAt = new Int32Array(size * size).fill(-1);
  peaks.forEach((cell, k) => {
    peakAt[cell] = k;
  });
  const home: Float64Array[] = [];
  const peak: Float64Array[] = [];
  // Ways of one slope and pace are alike: one entry stands for all of them.
  const alike = new Map<string, number>();
  const standsFor = Array.from(ways.slopeRad, (slope, cell) => {
    const key = `${slope} ${ways.paceMs[cell]!}`;
    const first = alike.get(key) ?? cell;
    alike.set(key, first);
    return first;
  });
  const leg: Float64Array[] = [];
  // Where nothing differs, nothing is worked out again.
  const like = new Map<SuitRates, number>();

  routes.forEach((_, r) => {
    const own = walkers[r]!;
    draws.purged[r * KINDS] = purgeOf(own.suit);
    own.stock.forEach((stock, kind) => {
      draws.full[r * KINDS + kind] = stock + draws.purged[r * KINDS + kind]!;
      draws.reserve[r * KINDS + kind] = own.kept[kind]!;
    });
    const suit = worn[r]!;
    const same = like.get(suit);
    if (same !== undefined) {
      for (const row of [
        draws.available,
        draws.availableBack,
        draws.dearest,
        draws.restRate,
        draws.hatchRate,
      ])
        row.copyWithin(r * KINDS, same * KINDS, (same + 1) * KINDS);
      for (const row of [draws.task, draws.inner])
        for (let at = 0; at < tasks * count * KINDS; at += count * KINDS)
          row.copyWithin(at + r * KINDS, at + same * KINDS, at + (same + 1) * KINDS);
      for (const list of [leg, home, peak]) list.push(list[same]!);
      return;
    }
    like.set(suit, r);
    const rest = suit.rest.draws;
    const hatch = suit.hatch.draws;
    /** All that walk-backs of so many seconds on their slopes draw, flat times kinds. */
    const walkbacks = (
      list: readonly { readonly seconds: number; readonly slopeRad: number }[],
    ): Float64Array =>
      Float64Array.from(
        list.flatMap(({ seconds, slopeRad }) =>
          suit.back(slopeRad).draws.map((perSecond) => perSecond * Math.max(0, seconds)),
        ),
      );
    const homeDraw = walkbacks(
      Array.from(ground.homeS, (seconds, i) => ({ seconds, slopeRad: ground.homeSlopeRad[i]! })),
    );
    const peakDraw = walkbacks(
      peaks.map((cell) => ({ seconds: ground.peakS[cell]!, slopeRad: ground.peakSlopeRad[cell]! })),
    );
    home.push(homeDraw);
    peak.push(peakDraw);
    const innerDraw = walkbacks(
      insides.map((inside) => {
        const { seconds, slopeRad } = ground.insideHome(inside);
        const isPeak = seconds > Math.max(ground.homeS[inside.from]!, ground.homeS[inside.to]!);
        return { seconds: isPeak ? seconds : 0, slopeRad };
      }),
    );
    for (let a = 0; a < tasks; a += 1)
      draws.inner.set(innerDraw.subarray(a * KINDS, (a + 1) * KINDS), (a * count + r) * KINDS);
    const walk = new Map([...alike.values()].map((cell) => [cell, suit.way(cell).draws]));
    const work = plan.tasks.map((task) => suit.work(task).draws);
    for (let kind = 0; kind < KINDS; kind += 1) {
      const at = r * KINDS + kind;
      const available = own.stock[kind]! - kept * own.kept[kind]!;
      const availableBack = own.stock[kind]! - keptBack * own.kept[kind]!;
      draws.available[at] = available;
      draws.availableBack[at] = availableBack;
      draws.restRate[at] = rest[kind]!;
      draws.hatchRate[at] = hatch[kind]! - rest[kind]!;
      let greatest = Math.max(rest[kind]!, hatch[kind]!);
      for (const one of walk.values()) greatest = Math.max(greatest, one[kind]!);
      for (const one of work) greatest = Math.max(greatest, one[kind]!);
      if (greatest * longestOutS > available) draws.kindBinds[kind] = 1;
      const farthest = Math.max(...[homeDraw, peakDraw, innerDraw].map((list) => mostOf(list, kind)));
      draws.dearest[at] = farthest;
      if (greatest * longestOutS + farthest > availableBack) draws.walkbackBinds[kind] = 1;
    }
    plan.tasks.forEach((task, a) => {
      for (let kind = 0; kind < KINDS; kind += 1) {
        draws.task[(a * count + r) * KINDS + kind] = (work[a]![kind]! - rest[kind]!) * task.duration.likelyS;
      }
    });
    const legs = new Float64Array(size * size * KINDS);
    for (let cell = 0; cell < size * size; cell += 1) {
      const seconds = ways.durationS[cell]!;
      if (seconds <= 0) continue;
      const drawn = walk.get(standsFor[cell]!)!;
      for (let kind = 0; kind < KINDS; kind += 1)
        legs[cell * KINDS + kind] = (drawn[kind]! - rest[kind]!) * seconds;
    }
    leg.push(legs);
  });
  // The walk-back is tested against what the board keeps of draws, and at the lander it is the reserve itself.
  draws.walkbackBinds.forEach((one, kind) => {
    if (one === 1) draws.kindBinds[kind] = 1;
  });
  return { ...draws, leg, home, peakAt, peak, binds: draws.kindBinds.includes(1) };
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
