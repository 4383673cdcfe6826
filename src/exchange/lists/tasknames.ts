import type { Task } from "../../plan/index.ts";
import { sameName, slug } from "./names.ts";

/** True when the task has the requester's number. */
export function isNumbered(task: Task, number: string): boolean {
  return number !== "" && (sameName(task.number ?? "") === sameName(number) || task.id === slug(number));
}

/** True when the task has the name, capitals aside. */
export function isCalled(task: Task, name: string): boolean {
  return name !== "" && sameName(task.name) === sameName(name);
}
