import type { Plan, Schedule } from "../../plan/index.ts";
import type { Problem } from "../problem.ts";
import { compile } from "./index.ts";
import { flyingOrder } from "./outings.ts";

/** Plans are never changed in place, so what was compiled once need not be again; by the order in which the EVAs are flown. */
const known = new WeakMap<Plan, Map<string, Problem>>();

/** The compiled form of `plan`, its EVAs in the order in which `schedule` flies them; the same for the same plan and order. */
export function compiled(plan: Plan, schedule: Schedule): Problem {
  const byOrder = known.get(plan) ?? new Map<string, Problem>();
  known.set(plan, byOrder);
  const order = flyingOrder(plan, schedule).join();
  const problem = byOrder.get(order) ?? compile(plan, schedule);
  byOrder.set(order, problem);
  return problem;
}
