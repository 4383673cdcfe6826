import { describe, expect, it } from "vitest";
import { check } from "../../../../src/check/index.ts";
import { applyEdit, parse } from "../../../../src/plan/index.ts";
import { compile } from "../../../../src/solver/problem/compile.ts";
import { whyRun } from "../../../../src/solver/index.ts";
import { causesOf } from "../../../../src/solver/question/why/cause.ts";
import { relaxationsOf } from "../../../../src/solver/question/why/relaxations.ts";
import { tryRelaxation } from "../../../../src/solver/question/why/fewest.ts";
import { WAITS_A_CHANGE } from "../../../../src/solver/question/why/solve.ts";
import { neededFor } from "../../../../src/solver/question/trial/needs.ts";
import { gridName } from "../../../../src/words/index.ts";
import { packed } from "./packed.ts";
import { randomPlan } from "../../../properties/randomPlan.ts";

const effort = { seed: 1, iterations: 4, waits: WAITS_A_CHANGE };

function ended<T>(going: Generator<void, T>): T {
  for (;;) {
    const step = going.next();
    if (step.done) return step.value;
  }
}

/** Random plans with their packed schedule and a task on the bench. */
function* cases(from: number, count: number) {
  for (let seed = from; seed < from + count; seed += 1) {
    const plan = randomPlan(seed, {
      tasks: 5 + (seed % 5),
      crew: 1 + (seed % 2),
      evas: 1 + (seed % 2),
      places: 2 + (seed % 4),
      features: (seed % 3) / 2,
    });
    const schedule = packed(plan, seed % 2 === 0 ? 20 : 1, seed);
    const placed = new Set(schedule.placements.map((one) => one.task));
    const task = plan.tasks.find((one) => !placed.has(one.id));
    if (task) yield { seed, plan, schedule, placed, task };
  }
}

describe("relaxations", () => {
  it("make the task fit, lose only what they say, are sorted by cost, and one step fewer is not accepted", () => {
    const kinds = new Map<string, number>();
    for (const { seed, plan, schedule, placed, task } of cases(40_000, 70)) {
      const run = whyRun(plan, schedule, task.id, { ...effort, clock: () => 0 });
      while (run.step(1)) continue;
      const { relaxations, offers, tried, stopped, sentence } = run.report();
      // No figure is claimed but those that were tried, which are the relaxations' own; the grid is the plan's, and named as such.
      const claimed = `${sentence} ${run.report().conflict?.sentence ?? ""}`.replaceAll(
        ` with starts on ${gridName(plan.rules.startGridS)}`,
        "",
      );
      expect(claimed).not.toMatch(/\d min|missing|short/);
      expect({ stopped, tried }).toEqual({ stopped: "done", tried: offers });
      const problem = compile(plan);
      const standing = new Set(plan.tasks.flatMap((one, a) => (placed.has(one.id) ? [a] : [])));
      const group = neededFor(problem, plan.tasks.indexOf(task), standing);
      const extra = group.map((a) => plan.tasks[a]!.id);
      const known = relaxationsOf(problem, schedule, group, causesOf(problem, schedule, group));
      for (const [k, one] of relaxations.entries()) {
        const changed = applyEdit(plan, one.edit);
        expect(parse(JSON.parse(JSON.stringify(changed))).ok, `${seed} ${one.sentence}`).toBe(true);
        const verdict = check(changed, one.schedule);
        const said = verdict.findings.filter((finding) => finding.level === "breach").map((f) => f.sentence);
        expect({ seed, sentence: one.sentence, said }).toEqual({ seed, sentence: one.sentence, said: [] });
        const now = new Set(one.schedule.placements.map((placement) => placement.task));
        expect(now.has(task.id)).toBe(true);
        expect([...placed].filter((id) => !now.has(id)).sort()).toEqual([...one.dropped].sort());
        const left = schedule.placements.filter((placement) => !one.dropped.includes(placement.task));
        // As the judge counts it: of a group with shares less is lost with each.
        const worth = check(plan, schedule).score.worth - check(plan, { placements: left }).score.worth;
        expect(one.cost.worthLost).toBe(worth);
        const before = relaxations[k - 1]?.cost;
        if (before) {
          const order = (["mustLost", "worthLost", "size"] as const).map(
            (key) => before[key] - one.cost[key],
          );
          expect(order.find((difference) => difference !== 0) ?? 0).toBeLessThanOrEqual(0);
        }
        kinds.set(one.kind, (kinds.get(one.kind) ?? 0) + 1);
        // Asked again with the change taken it fits: no other figure comes up.
        if (k === 0 && one.dropped.length === 0 && seed % 3 === 0) {
          const again = whyRun(changed, schedule, task.id, { ...effort, clock: () => 0 });
          while (again.step(1)) continue;
          expect({ seed, sentence: one.sentence, again: again.report().state }).toEqual({
            seed,
            sentence: one.sentence,
            again: expect.stringMatching(/fits|rearranged/),
          });
        }
        const relaxation = known.find(
          (each) => each.most > 1 && each.kind === one.kind && each.say(one.steps) === one.sentence,
        );
        if (!relaxation) continue;
        const fewer = ended(tryRelaxation(plan, schedule, extra, relaxation, one.steps - 1, effort));
        expect({ seed, sentence: one.sentence, fewer }).toEqual({
          seed,
          sentence: one.sentence,
          fewer: null,
        });
      }
    }
    for (const kind of ["rearrange", "drop", "exchange", "longest", "window"])
      expect(kinds.get(kind) ?? 0, `${kind} in ${JSON.stringify([...kinds])}`).toBeGreaterThan(0);
  });

  it("never change a rule of the plan", () => {
    for (const { plan, schedule, task } of cases(41_000, 30)) {
      const run = whyRun(plan, schedule, task.id, { ...effort, clock: () => 0 });
      while (run.step(1)) continue;
      for (const { edit } of run.report().relaxations)
        for (const { path } of edit.patch)
          expect(["evas", "suits", "tasks", "links", "stay", "equipment"]).toContain(path[0]);
    }
  });

  it("give the same report whatever the slices, and stop when the time is up", () => {
    for (const { plan, schedule, task } of cases(42_000, 8)) {
      const whole = whyRun(plan, schedule, task.id, { ...effort, clock: () => 0 });
      while (whole.step(1)) continue;
      let ticks = 0;
      const clock = (): number => (ticks += 0.01);
      const sliced = whyRun(plan, schedule, task.id, { ...effort, clock });
      while (sliced.step(0.02)) continue;
      expect(sliced.report()).toEqual(whole.report());
      const cut = whyRun(plan, schedule, task.id, { ...effort, clock, seconds: 0.03 });
      while (cut.step(0.02)) continue;
      expect(["time", "done"]).toContain(cut.report().stopped);
    }
  });
});
