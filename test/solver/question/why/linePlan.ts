import { random } from "../../../../src/kernel/index.ts";
import type { Plan } from "../../../../src/plan/index.ts";
import { eva, place, task, type TaskInput, tinyPlan } from "../../../check/tinyPlan.ts";

/** All times and ways are whole multiples of this: what can be flown at all can be flown on this grid. */
export const GRID_S = 600;

/**
 * Two to four requests on a line of places 600 m apart (600 s at 1 m/s), two crew members, airlock work 600 s, one outing,
 * windows, lags, a tool and a box, all in multiples of 600 s.
 */
export function linePlan(seed: number, least = 2, most = 3): Plan {
  const stream = random(seed);
  const whole = (low: number, high: number): number => low + stream.below(high - low + 1);
  const chance = (p: number): boolean => stream.next() < p;
  const ids = ["t0", "t1", "t2", "t3"].slice(0, least + stream.below(most - least + 1));
  const tasks = ids.map((id): TaskInput => {
    const fromS = whole(0, 8) * GRID_S;
    return task(id, ["a", "b", "lander"][stream.below(3)]!, {
      duration: { likelyS: whole(1, 4) * GRID_S },
      worth: 10,
      crew: chance(0.3) ? { count: 2 } : chance(0.3) ? { named: ["ev1"] } : {},
      ...(chance(0.4) ? { windows: [{ startS: fromS, endS: fromS + whole(2, 8) * GRID_S }] } : {}),
      ...(chance(0.4) ? { equipment: [{ equipment: "tool" }] } : {}),
      ...(chance(0.3) ? { sample: { container: "box", massKg: 2 } } : {}),
    });
  });
  const lag = chance(0.6)
    ? [
        {
          id: "lag",
          type: "lag" as const,
          from: { task: "t0", end: "end" as const },
          to: { task: "t1", end: "start" as const },
          leastS: whole(0, 4) * GRID_S,
          ...(chance(0.5) ? { greatestS: whole(4, 6) * GRID_S } : {}),
          needs: "none" as const,
        },
      ]
    : [];
  return tinyPlan({
    tasks,
    places: [place("lander", 0, 0), place("a", 600, 0), place("b", 1200, 0)],
    evas: [
      eva("eva-1", {
        latestIngressS: whole(7, 12) * GRID_S,
        longestS: whole(6, 11) * GRID_S,
        crew: chance(0.5) ? ["ev1", "ev2"] : ["ev1"],
      }),
    ],
    more: {
      links: lag,
      equipment: [{ id: "tool", name: "tool", count: 1 }],
      containers: [{ id: "box", name: "box", emptyMassKg: 1, capacityKg: 3, volumeL: 10 }],
    },
  });
}

/** Crew that may do a task on the one EVA, by the judge's own words: all sets of the right size. */
export function crews(plan: Plan, id: string): string[][] {
  const { count } = plan.tasks.find((one) => one.id === id)!.crew;
  const [out] = plan.evas;
  return count === 2 ? (out!.crew.length < 2 ? [] : [[...out!.crew]]) : out!.crew.map((one) => [one]);
}
