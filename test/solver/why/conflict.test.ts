import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../src/check/index.ts";
import { instant, random } from "../../../src/kernel/index.ts";
import type { Placement, Plan, Schedule } from "../../../src/plan/index.ts";
import { packRun, whyRun } from "../../../src/solver/index.ts";
import { eva, place, task, type TaskInput, tinyPlan } from "../../check/tinyPlan.ts";
import { weakened } from "./weakened.ts";

/** All times and ways are whole multiples of this: what can be flown at all can be flown on this grid. */
const GRID_S = 600;

/**
 * Two or three requests on a line of places 600 m apart (600 s at 1 m/s), two crew members, airlock work 600 s, one outing,
 * windows, lags, a tool and a box, all in multiples of 600 s.
 */
function linePlan(seed: number): Plan {
  const stream = random(seed);
  const whole = (low: number, high: number): number => low + stream.below(high - low + 1);
  const chance = (p: number): boolean => stream.next() < p;
  const ids = ["t0", "t1", "t2"].slice(0, 2 + stream.below(2));
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
function crews(plan: Plan, id: string): string[][] {
  const { count } = plan.tasks.find((one) => one.id === id)!.crew;
  const [out] = plan.evas;
  return count === 2 ? (out!.crew.length < 2 ? [] : [[...out!.crew]]) : out!.crew.map((one) => [one]);
}

/** True when the judge accepts some starts on the grid for `kept`, in its order on each crew member, with `wanted` beside them. */
function canBeFlown(
  plan: Plan,
  kept: readonly Placement[],
  wanted: string,
  keys: ReadonlySet<string>,
): boolean {
  const judge = judgeFor(plan);
  const far = 6 * GRID_S;
  const [out] = plan.evas;
  const fromS = keys.has("egress 0") ? 0 : -far;
  const toS = keys.has("ingress 0") ? out!.latestIngressS : 12 * GRID_S + far;
  const ordered = [...kept].sort((x, y) => x.startS - y.startS);
  const placements: Placement[] = [];
  const put = (k: number): boolean => {
    if (k < ordered.length) {
      const one = ordered[k]!;
      // The order on each crew member and tool stays. More tasks are never easier than fewer here: a part that fails, fails.
      const leastS = placements.reduce(
        (most, old) =>
          old.crew.some((id) => one.crew.includes(id)) || shareTool(plan, old, one)
            ? Math.max(most, old.startS)
            : most,
        fromS,
      );
      for (let startS = leastS; startS < toS; startS += GRID_S) {
        placements.push({ ...one, startS: instant(startS) });
        if (judge({ placements }).score.breaches === 0) if (put(k + 1)) return true;
        placements.pop();
      }
      return false;
    }
    for (const crew of crews(plan, wanted)) {
      for (let startS = fromS; startS < toS; startS += GRID_S) {
        placements.push({ task: wanted, eva: "eva-1", crew, startS: instant(startS) });
        const sound = judge({ placements }).score.breaches === 0;
        placements.pop();
        if (sound) return true;
      }
    }
    return false;
  };
  return put(0);
}

function shareTool(plan: Plan, a: Placement, b: Placement): boolean {
  const uses = (id: string): boolean => plan.tasks.find((one) => one.id === id)!.equipment.length > 0;
  return uses(a.task) && uses(b.task);
}

function packed(plan: Plan): Schedule {
  const run = packRun(plan, { seed: 1, iterations: 60, clock: () => 0 });
  while (run.step(1)) continue;
  return run.best();
}

describe("a minimal conflict", () => {
  it("cannot be flown by brute force, and can with any one of its members lifted", () => {
    let conflicts = 0;
    const kinds = new Set<string>();
    for (let seed = 1; seed <= 110; seed += 1) {
      const plan = linePlan(seed);
      const schedule = packed(plan);
      const placed = new Set(schedule.placements.map((one) => one.task));
      const out = plan.tasks.filter((one) => !placed.has(one.id));
      if (out.length !== 1) continue;
      const wanted = out[0]!.id;
      const run = whyRun(plan, schedule, wanted, { seed: 1, clock: () => 0, iterations: 4 });
      while (!run.report().conflict && run.step(0)) continue;
      const { conflict } = run.report();
      if (!conflict) continue;
      expect({ seed, certainty: conflict.certainty, minimal: conflict.minimal }).toEqual({
        seed,
        certainty: "proved",
        minimal: true,
      });
      const flown = (keys: ReadonlySet<string>): boolean => {
        const kept = schedule.placements.filter((one) =>
          keys.has(`placement ${plan.tasks.findIndex((each) => each.id === one.task)}`),
        );
        return canBeFlown(weakened(plan, keys), kept, wanted, keys);
      };
      const keys = new Set(conflict.causes.map((one) => one.key));
      const words = conflict.causes.map((one) => one.sentence).join(" ");
      expect({ seed, words, flown: flown(keys) }).toEqual({ seed, words, flown: false });
      for (const { key, kind } of conflict.causes) {
        const fewer = new Set([...keys].filter((one) => one !== key));
        expect({ seed, words, without: key, flown: flown(fewer) }).toEqual({
          seed,
          words,
          without: key,
          flown: true,
        });
        kinds.add(kind);
      }
      conflicts += 1;
    }
    // Worth the trouble: many conflicts, of most kinds that the plans can have.
    expect(conflicts).toBeGreaterThan(15);
    expect([...kinds].sort()).toEqual(
      expect.arrayContaining(["container", "ingress", "link", "longest", "placement", "window"]),
    );
  });
});
