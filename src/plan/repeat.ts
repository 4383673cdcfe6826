import { freshId } from "./freshid.ts";
import type { Group } from "./group.ts";
import type { Plan } from "./plan.ts";
import type { Task } from "./task.ts";
import { freshNumber } from "./tasknumber.ts";

/** The end of the id of a group that was made of one task and others like it. */
const SEVERAL = "-several";
const MADE = /-several(-\d+)?$/;

/** The plan's branches with one more task like another, and the id of that one. */
export interface OneMore {
  readonly id: string;
  readonly parts: Pick<Plan, "tasks" | "groups">;
}

/**
 * One more of task `id`, behind it in the list: alike in all but its own id, number and name, and not pinned. It and all others made so are a
 * group, whose numbers say how many of them are wanted and what each further one counts; made with the first, and asking for nothing
 * then. Null where there is no such task.
 */
export function oneMore(plan: Plan, id: string): OneMore | null {
  const task = plan.tasks.find((one) => one.id === id);
  if (!task) return null;
  const known = plan.groups.find((one) => MADE.test(one.id) && one.tasks.includes(id));
  const stem = known?.tasks[0] ?? id;
  const taken = new Set(plan.tasks.map((one) => one.id));
  const second = freshId(stem, taken);
  const name = known?.name ?? task.name;
  const made: Task = {
    ...unnumbered(task),
    id: second,
    number: freshNumber(plan.tasks),
    name: `${name} ${(known?.tasks.length ?? 1) + 1}`,
  };
  const group: Group = known
    ? { ...known, tasks: [...known.tasks, second] }
    : { id: groupId(plan, id), name, tasks: [id, second], least: 0, shares: [] };
  return {
    id: second,
    parts: {
      tasks: plan.tasks.flatMap((one) => (one === task ? [one, made] : [one])),
      groups: known ? plan.groups.map((one) => (one === known ? group : one)) : [...plan.groups, group],
    },
  };
}

/** Bags with numbers of their own are the first one's alone: of the other it is said how many. */
function unnumbered(like: Task): Task {
  const task = { ...like };
  delete task.pin;
  const { sample } = task;
  return sample && Array.isArray(sample.bags)
    ? { ...task, sample: { ...sample, bags: sample.bags.length } }
    : task;
}

function groupId({ groups }: Plan, id: string): string {
  const taken = new Set(groups.map((one) => one.id));
  const own = `${id.slice(0, 64 - SEVERAL.length).replace(/-+$/, "")}${SEVERAL}`;
  return taken.has(own) ? freshId(own, taken) : own;
}
