import { remembered } from "../kernel/index.ts";
import type { Plan } from "./plan.ts";
import type { Task } from "./task.ts";

const byId = remembered(
  (tasks: Plan["tasks"]): ReadonlyMap<string, Task> => new Map(tasks.map((task) => [task.id, task])),
);

/** The tasks of a plan by id; the same map for the same list. */
export function tasksById({ tasks }: Pick<Plan, "tasks">): ReadonlyMap<string, Task> {
  return byId(tasks);
}
