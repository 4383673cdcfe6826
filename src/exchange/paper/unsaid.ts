import type { Plan, Task } from "../../plan/index.ts";
import { taskName } from "./crewday.ts";

/** Something that somebody who prints a plan's cuff checklists may look for there in vain. */
export interface Unsaid {
  /** In words that follow "On paper:". */
  readonly words: string;
  /** The tasks that it is about; none where it is about no task. */
  readonly tasks: readonly string[];
}

/** What is not on a plan's cuff checklists: steps and cautions that were not written, notes that are not the crew's. */
export function unsaidOnCuffs(plan: Plan): Unsaid[] {
  const byCrew = plan.schedule.placements.filter(({ crew }) => crew.length > 0);
  const placed = new Set(byCrew.map((placement) => placement.task));
  const without = (what: string, list: (task: Task) => readonly string[]): Unsaid[] => {
    const tasks = plan.tasks.filter((task) => placed.has(task.id) && list(task).length === 0);
    if (tasks.length === 0) return [];
    const count = tasks.length === 1 ? "1 task" : `${tasks.length} tasks`;
    return [{ words: `no ${what} for ${count}`, tasks: tasks.map(taskName) }];
  };
  const notes = [
    ...(plan.notes.trim() === "" ? [] : ["the plan"]),
    ...(plan.site.notes.trim() === "" ? [] : ["the site"]),
  ];
  return [
    ...without("steps", ({ steps }) => steps),
    ...without("caution", ({ cautions }) => cautions),
    ...(notes.length > 0 ? [{ words: `notes of ${notes.join(" and of ")} not printed`, tasks: [] }] : []),
  ];
}
