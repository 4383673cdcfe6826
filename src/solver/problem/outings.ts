import { instant, normalise } from "../../kernel/index.ts";
import { drinkingS } from "../../physics/index.ts";
import { oneAfterOther, type Plan, type Schedule, suitOn } from "../../plan/index.ts";
import type { RawEdge } from "./relations.ts";

/** A route: one crew member on one EVA. */
export interface RouteKey {
  readonly eva: number;
  readonly member: number;
}

/** A stretch in which a whole EVA may lie, egress to ingress complete. */
export interface Gap {
  readonly fromS: number;
  readonly toS: number;
}

/** Crew member by EVA, in the plan's order. */
export function routesOf(plan: Plan): RouteKey[] {
  const index = new Map(plan.crew.map((member, m) => [member.id, m]));
  return plan.evas.flatMap((eva, e) => eva.crew.map((id) => ({ eva: e, member: index.get(id)! })));
}

/** Between the EVA's bounds, touchdown and liftoff, around the blocks of its crew (eva-bounds, stay-blocks). */
export function gapsOf(plan: Plan): Gap[][] {
  return plan.evas.map((eva) => {
    const blocks = normalise(
      plan.stay.blocks.filter(
        (block) => block.crew.length === 0 || block.crew.some((id) => eva.crew.includes(id)),
      ),
    );
    const endS = Math.min(eva.latestIngressS, plan.stay.lengthS);
    const gaps: Gap[] = [];
    let fromS: number = Math.max(0, eva.earliestEgressS);
    for (const block of [...blocks, { startS: instant(endS), endS: instant(endS) }]) {
      const toS = Math.min(block.startS, endS);
      if (fromS <= toS) gaps.push({ fromS, toS });
      fromS = Math.max(fromS, block.endS);
    }
    return gaps;
  });
}

/**
 * By EVA the longest from egress to ingress complete: its own limit, no more than all EVA time of a crew member together
 * (`dutyS`), and no longer than anybody's drinking water lasts (drinking-water).
 */
export function longestOf(plan: Plan, dutyS: number): number[] {
  const { drinking } = plan.rules;
  return plan.evas.map((eva) =>
    eva.crew.reduce(
      (least, id) => {
        const { drinkKg } = suitOn(plan, eva, id)!;
        if (drinkKg === undefined || drinking.level !== "breach") return least;
        return Math.min(least, drinkingS(drinkKg, drinking.kgH));
      },
      Math.min(eva.longestS, dutyS),
    ),
  );
}

/**
 * The order in which the EVAs are flown: that of their earliest egress, but for those that `schedule` flies in another one, which
 * change places with each other.
 */
export function flyingOrder(plan: Plan, schedule?: Schedule): number[] {
  const order = plan.evas
    .map((eva, e) => ({ eva, e }))
    .sort(
      (a, b) =>
        a.eva.earliestEgressS - b.eva.earliestEgressS ||
        a.eva.latestIngressS - b.eva.latestIngressS ||
        a.e - b.e,
    )
    .map(({ e }) => e);
  const beginsS = new Map<number, number>();
  const index = new Map<string | null, number>(plan.evas.map((eva, e) => [eva.id, e]));
  for (const { eva, startS } of schedule?.placements ?? []) {
    const e = index.get(eva);
    if (e !== undefined) beginsS.set(e, Math.min(startS, beginsS.get(e) ?? Infinity));
  }
  const flown = order.filter((e) => beginsS.has(e));
  const asFlown = [...flown].sort((a, b) => beginsS.get(a)! - beginsS.get(b)!);
  return order.map((e) => (beginsS.has(e) ? asFlown[flown.indexOf(e)]! : e));
}

/**
 * From all back on one EVA to egress on a later one with a common crew member or suit (recharge, one-at-a-time, suit-worn-once), the
 * EVAs in the order `flying`; nodes of EVA e are `first + 2 e` (egress) and the next one (all back).
 */
export function rechargeEdges(plan: Plan, first: number, flying: readonly number[]): RawEdge[] {
  const { recharge } = plan.rules;
  const leastS = recharge.level === "breach" ? recharge.leastS : 0;
  const order = flying.map((e) => ({ eva: plan.evas[e]!, e }));
  return order.flatMap((before, i) =>
    order.slice(i + 1).flatMap((next): RawEdge[] => {
      if (!oneAfterOther(plan, before.eva, next.eva)) return [];
      return [
        {
          from: first + 2 * before.e + 1,
          to: first + 2 * next.e,
          weight: before.eva.ingressWorkS + leastS,
          origin: { rule: "recharge", eva: next.e },
        },
      ];
    }),
  );
}
