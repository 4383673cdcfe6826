import { allCautions, type Plan, type Task } from "../../plan/index.ts";
import { taskName } from "./crewday.ts";

/** Something that somebody who prints a plan's cuff checklists may look for there in vain. */
export interface Unsaid {
  /** In words that follow "On paper:". */
  readonly words: string;
  /** The tasks that it is about; none where it is about no task. */
  readonly tasks: readonly string[];
}

/**
 * What is not on a plan's cuff checklists (steps and cautions that were not written, notes that are not the crew's), and
 * what is hard to keep to: starts that are not on a whole minute.
 */
export function unsaidOnCuffs(plan: Plan): Unsaid[] {
  const byCrew = plan.schedule.placements.filter(({ crew }) => crew.length > 0);
  const placed = new Set(byCrew.map((placement) => placement.task));
  const told = (what: string, is: (task: Task) => boolean): Unsaid[] => {
    const tasks = plan.tasks.filter((task) => placed.has(task.id) && is(task));
    if (tasks.length === 0) return [];
    const count = tasks.length === 1 ? "1 task" : `${tasks.length} tasks`;
    return [{ words: `${what} for ${count}`, tasks: tasks.map(taskName) }];
  };
  const uneven = new Set(byCrew.filter(({ startS }) => startS % 60 !== 0).map(({ task }) => task));
  const notes = [
    ...(plan.notes.trim() === "" ? [] : ["the plan"]),
    ...(plan.site.notes.trim() === "" ? [] : ["the site"]),
  ];
  return [
    ...told("no steps", ({ steps }) => steps.length === 0),
    ...told("no caution", (task) => allCautions(task).length === 0),
    ...told("cautions without a class", (task) => allCautions(task).some((one) => one.class === undefined)),
    ...told("starts with seconds", ({ id }) => uneven.has(id)),
    ...(notes.length > 0 ? [{ words: `notes of ${notes.join(" and of ")} not printed`, tasks: [] }] : []),
  ];
}
