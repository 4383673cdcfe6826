import type { Plan, Task } from "../../plan/index.ts";
import { sameName, slug } from "./names.ts";

/** The task with the requester's number; without one, the task whose id was made of such a number. Undefined for none. */
export function taskNumbered({ tasks }: Pick<Plan, "tasks">, number: string): Task | undefined {
  if (number === "") return undefined;
  return (
    tasks.find((task) => sameName(task.number ?? "") === sameName(number)) ??
    tasks.find((task) => task.id === slug(number))
  );
}

/** True when the task has the name, capitals aside. */
export function isCalled(task: Task, name: string): boolean {
  return name !== "" && sameName(task.name) === sameName(name);
}
