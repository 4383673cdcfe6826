import type { Remedy } from "./mishap.ts";
import type { Plan } from "./plan.ts";
import type { Task } from "./task.ts";

/** What is done at the end of a task only if something has gone wrong (S19). */
interface Hung {
  /** The task that it went wrong with. */
  readonly of: Task;
  /** What went wrong. */
  readonly what: string;
  readonly remedy: Remedy;
}

/** The id of the task at whose end what goes wrong with `task` is made good; null where nothing makes it good. */
export function remedyHost({ id, mishap }: Task): string | null {
  return mishap?.remedy ? (mishap.remedy.after ?? id) : null;
}

/** `task` with what was made good at the end of task `from` made good at the end of task `to`. */
export function rehung(task: Task, from: string, to: string): Task {
  const { mishap } = task;
  if (mishap?.remedy?.after !== from) return task;
  return { ...task, mishap: { ...mishap, remedy: { ...mishap.remedy, after: to } } };
}

/** All that may have to be made good at the end of task `id`, in the order of the plan. */
export function remediesAfter({ tasks }: Pick<Plan, "tasks">, id: string): readonly Hung[] {
  return tasks.flatMap((task) =>
    task.mishap?.remedy && remedyHost(task) === id
      ? [{ of: task, what: task.mishap.what, remedy: task.mishap.remedy }]
      : [],
  );
}
