import { instant } from "../../../../src/kernel/index.ts";
import type { Plan } from "../../../../src/plan/index.ts";

/**
 * `plan` in which only the causes named by `keys` hold: all other bounds, windows, links and limits are taken out of the
 * document itself. For tests, and independent of how the maker lifts them.
 */
export function weakened(plan: Plan, keys: ReadonlySet<string>): Plan {
  const holds = (kind: string, about: number): boolean => keys.has(`${kind} ${about}`);
  const { rules } = plan;
  const level = (kind: string) => (holds(kind, 0) ? ("breach" as const) : ("warning" as const));
  return {
    ...plan,
    links: plan.links.filter((_, l) => holds("link", l)),
    equipment: plan.equipment.map((one, q) => (holds("equipment", q) ? one : { ...one, count: 1000 })),
    containers: plan.containers.map((one, c) =>
      holds("container", c) ? one : { ...one, capacityKg: 900, volumeL: 9000 },
    ),
    stay: {
      ...plan.stay,
      blocks: plan.stay.blocks.filter((_, k) => holds("block", k)),
      lengthS: (holds("liftoff", 0) ? plan.stay.lengthS : 1_000_000) as never,
    },
    evas: plan.evas.map((eva, e) => ({
      ...eva,
      earliestEgressS: holds("egress", e) ? eva.earliestEgressS : instant(-1_000_000),
      latestIngressS: holds("ingress", e) ? eva.latestIngressS : instant(1_000_000),
      longestS: (holds("longest", e) ? eva.longestS : 1_000_000) as never,
    })),
    tasks: plan.tasks.map((task, a) => ({
      ...task,
      windows: holds("window", a) ? task.windows : [],
      pin: holds("pin", a) ? task.pin : undefined,
      crew: holds("crew", a) ? task.crew : { count: task.crew.count, named: [] },
    })),
    rules: {
      ...rules,
      separation: { ...rules.separation, level: level("separation") },
      distance: {
        ...rules.distance,
        evaM: holds("eva-distance", 0) ? rules.distance.evaM : 1e6,
        stayM: holds("stay-distance", 0) ? rules.distance.stayM : 1e6,
      },
      work: { ...rules.work, level: level("work") },
      duty: { ...rules.duty, level: level("duty") },
      recharge: { ...rules.recharge, level: level("recharge") },
      returnMass: { ...rules.returnMass, level: level("return-mass") },
      walkback: { ...rules.walkback, level: level("walk-back-emergency") },
    },
  };
}
