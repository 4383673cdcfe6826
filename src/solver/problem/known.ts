import type { Plan, Schedule } from "../../plan/index.ts";
import type { Problem } from "./problem.ts";
import { compile } from "./compile.ts";
import { flyingOrder } from "./outings.ts";
import { openingsFrom, openingsOfActivity, startsIn } from "./starts.ts";
import { changed } from "./changed.ts";

/** Plans are never changed in place, so what was compiled once need not be again; by the order in which the EVAs are flown. */
const known = new WeakMap<Plan, Map<string, Problem>>();

/**
 * The compiled form of `plan` with `schedule` in hand: its EVAs in the order in which the schedule flies them, its starts among those
 * that may be chosen. What does not depend on its starts is compiled once.
 */
export function compiled(plan: Plan, schedule: Schedule): Problem {
  return withStartsOf(flown(plan, schedule), schedule);
}

/** The compiled form of `plan`, its EVAs in the order in which `schedule` flies them; the same for the same plan and order. */
export function flown(plan: Plan, schedule: Schedule): Problem {
  const byOrder = known.get(plan) ?? new Map<string, Problem>();
  known.set(plan, byOrder);
  const order = flyingOrder(plan, schedule).join();
  const problem = byOrder.get(order) ?? compile(plan, schedule);
  byOrder.set(order, problem);
  return problem;
}

/**
 * The same problem in which a task may also begin where `schedule` has it, on the grid or not: what somebody has set by hand can be
 * laid as it is. The problem itself where that adds nothing.
 */
export function withStartsOf(problem: Problem, schedule: Schedule): Problem {
  const { plan, gridS } = problem;
  const index = new Map(plan.tasks.map((task, a) => [task.id, a]));
  const givenS = new Map<number, number>();
  for (const { task, startS } of schedule.placements) {
    const a = index.get(task);
    if (a !== undefined && startS % gridS !== 0 && !givenS.has(a)) givenS.set(a, startS);
  }
  if (givenS.size === 0) return problem;
  const lists = plan.tasks.map((task, a) =>
    startsIn(openingsOfActivity(problem.windows, a), gridS, task, givenS.get(a)),
  );
  return changed(problem, { givenS, ...openingsFrom(lists) });
}
