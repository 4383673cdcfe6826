import { type Plan, suitOn } from "../../plan/index.ts";
import type { Heat } from "./problem.ts";
import type { RouteKey } from "./outings.ts";
import type { LegTable } from "./ground.ts";
import type { SuitRates } from "./suitrates.ts";
import { wayDrawsOf } from "./waydraws.ts";

/**
 * Heat of everything on every route (S7, heat-storage); null where the rule is a warning or nobody could ever store too
 * much: the greatest heat over what cooling carries off, all through the longest outing, stays within the limit.
 */
export function heatOf(
  plan: Plan,
  ground: LegTable,
  routes: readonly RouteKey[],
  suitRates: readonly SuitRates[],
  longestOutS: number,
): Heat | null {
  const { heat } = plan.rules;
  if (heat.level !== "breach") return null;
  const count = routes.length;
  const coolingW = new Float64Array(count);
  const mostJ = new Float64Array(count);
  const taskW = new Float64Array(plan.tasks.length * count);
  let binds = false;
  const like = new Map<SuitRates, number>();
  const legW: Float64Array[] = [];
  routes.forEach(({ eva, member }, r) => {
    const same = like.get(suitRates[r]!);
    if (same !== undefined) {
      coolingW[r] = coolingW[same]!;
      mostJ[r] = mostJ[same]!;
      for (let at = 0; at < taskW.length; at += count) taskW[at + r] = taskW[at + same]!;
      legW.push(legW[same]!);
      return;
    }
    like.set(suitRates[r]!, r);
    const { id, bodyMassKg } = plan.crew[member]!;
    coolingW[r] = Math.floor(suitOn(plan, plan.evas[eva]!, id)!.coolingW ?? Infinity);
    mostJ[r] = Math.floor(heat.mostKjKg * 1000 * bodyMassKg);
    let greatestW = Math.max(suitRates[r]!.rest.heatJ, suitRates[r]!.airlock.heatJ);
    plan.tasks.forEach((task, a) => {
      const watts = suitRates[r]!.work(task).heatJ;
      taskW[a * count + r] = watts;
      if (task.crew.count > 0) greatestW = Math.max(greatestW, watts);
    });
    const legs = wayDrawsOf(suitRates[r]!, ground).heatJ;
    for (const watts of legs) greatestW = Math.max(greatestW, watts);
    if ((greatestW - coolingW[r]!) * longestOutS > mostJ[r]!) binds = true;
    legW.push(legs);
  });
  if (!binds) return null;
  return {
    coolingW,
    mostJ,
    restW: Float64Array.from(suitRates, (one) => one.rest.heatJ),
    airlockW: Float64Array.from(suitRates, (one) => one.airlock.heatJ),
    taskW,
    legW,
  };
}
