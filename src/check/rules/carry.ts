import { carriedKg } from "../../physics/index.ts";
import { counted, mass } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import type { Walkthrough } from "../walkthrough.ts";
import { closeBelow } from "../thresholds.ts";

/** carry: what a task with crew carries out weighs at most the limit for each crew member it asks for. */
export const carry: JudgeRule = (walkthrough) => {
  const { level } = walkthrough.prepared.plan.rules.carry;
  return loadsCarried(walkthrough).flatMap(({ task, mostKg }) => {
    const { count } = task.crew;
    const over = task.massOutKg > mostKg;
    if (!over && !closeBelow(task.massOutKg, mostKg)) return [];
    return [
      finding("carry", over ? broken(level) : "tight", [about("task", task.id)], {
        need: mostKg,
        have: task.massOutKg,
        unit: "kg",
        sentence: `${task.name} carries out ${mass(task.massOutKg, "given")}; ${counted(count, "crew member")} may carry ${mass(mostKg, "down")} here.`,
      }),
    ];
  });
};

/** What placed tasks with crew carry out, with the most that their crew may carry, kg. */
export function loadsCarried({ prepared: { plan }, placed }: Walkthrough) {
  const { greatestN } = plan.rules.carry;
  return placed.flatMap(({ task }) => {
    const { count } = task.crew;
    if (count === 0 || task.massOutKg === 0) return [];
    return [{ task, mostKg: carriedKg(greatestN, plan.body.gravityMs2, count) }];
  });
}
