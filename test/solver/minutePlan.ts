import { random } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";
import { eva, place, task, tinyPlan } from "../check/tinyPlan.ts";

/** How fine and how rich a small day is. */
export interface Grain {
  /** Every number of time is a multiple of this, s. */
  readonly gridS: number;
  readonly tasks: number;
  /** Lengths of the day, in grid steps. */
  readonly steps: number;
  /** Rules beyond times as well: separation, rests, oxygen, distance. */
  readonly rules: boolean;
}

/**
 * A very short day for two people on one EVA, whose every start can be tried: places a grid step apart on a line,
 * windows, two-person and remote work, a shared tool, links with least and greatest lags, sometimes a block in the middle.
 * The same seed gives the same plan.
 */
export function minutePlan(seed: number, { gridS, tasks, steps, rules }: Grain): Plan {
  const stream = random(seed);
  const chance = (p: number): boolean => stream.next() < p;
  const whole = (low: number, high: number): number => low + stream.below(high - low + 1);
  const pick = <V>(list: readonly V[]): V => list[stream.below(list.length)]!;
  const ids = Array.from({ length: tasks }, (_, k) => `t${k + 1}`);
  const span = (least: number) => {
    const from = whole(0, steps - least - 1);
    return { startS: from * gridS, endS: (from + least + whole(0, Math.floor(steps / 3))) * gridS };
  };
  const links = ["l1", "l2"].flatMap((id): NonNullable<PlanInput["links"]> => {
    const [a, b] = [pick(ids), pick(ids)];
    if (a === b || chance(0.4)) return [];
    if (chance(0.3)) return [{ id, type: "crew", tasks: [a, b], crew: pick(["same", "different"]) }];
    const least = whole(-2, 3);
    return [
      {
        id,
        type: "lag",
        from: { task: a, end: pick(["start", "end"]) },
        to: { task: b, end: pick(["start", "end"]) },
        leastS: least * gridS,
        ...(chance(0.5) ? { greatestS: (least + whole(0, 4)) * gridS } : {}),
        needs: pick(["none", "from"]),
      },
    ];
  });
  return tinyPlan({
    tasks: ids.map((id) => {
      const remote = chance(0.15);
      const lasts = whole(1, 3);
      return task(id, remote ? null : pick(["lander", "a", "b", "c"]), {
        duration: { likelyS: lasts * gridS },
        crew: { count: remote ? 0 : chance(0.3) ? 2 : 1 },
        windows: chance(0.4) ? Array.from({ length: whole(1, 2) }, () => span(lasts)) : [],
        equipment: chance(0.35) ? [{ equipment: "drill" }] : [],
        worth: 1,
      });
    }),
    places: [place("lander", 0, 0), place("a", gridS, 0), place("b", 2 * gridS, 0), place("c", -gridS, 0)],
    evas: [
      eva("eva-1", {
        latestIngressS: (steps - whole(0, 2)) * gridS,
        longestS: whole(Math.floor(steps * 0.6), steps) * gridS,
        egressWorkS: gridS,
        ingressWorkS: gridS,
      }),
    ],
    stay: {
      lengthS: steps * gridS,
      blocks: chance(0.15)
        ? [{ id: "meal", name: "meal", kind: "meal", startS: 5 * gridS, endS: 6 * gridS }]
        : [],
    },
    suit: rules && chance(0.4) ? { oxygenKg: steps * gridS * 2e-5 * (0.5 + stream.next()) } : {},
    rules: rules
      ? {
          separation: { greatestM: chance(0.5) ? whole(gridS, 3 * gridS) : 5000 },
          work: chance(0.5) ? { longestS: whole(5, 9) * gridS, restS: whole(1, 2) * gridS } : {},
          distance: { evaM: chance(0.3) ? whole(2, 8) * gridS : 50_000 },
        }
      : { walkback: { level: "warning" } },
    more: { links, equipment: [{ id: "drill", name: "drill", count: 1 }] },
  });
}
