import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../../src/check/index.ts";
import { instant } from "../../../../src/kernel/index.ts";
import type { Placement, Plan } from "../../../../src/plan/index.ts";
import { whyRun } from "../../../../src/solver/index.ts";
import { crews, GRID_S, linePlan } from "./linePlan.ts";
import { packed } from "./packed.ts";
import { weakened } from "./weakened.ts";

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

describe("a minimal conflict", () => {
  it("cannot be flown by brute force, and can with any one of its members lifted", () => {
    let conflicts = 0;
    const kinds = new Set<string>();
    for (let seed = 1; seed <= 110; seed += 1) {
      const plan = linePlan(seed);
      const schedule = packed(plan, 60);
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
