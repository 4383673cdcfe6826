import type { Mishap } from "./mishap.ts";
import type { Plan } from "./plan.ts";
import type { Task } from "./task.ts";

/** All that may go wrong with `task`: its own, then that of each piece of equipment that it uses, however many of it. */
export function mishapsOf({ equipment }: Plan, task: Task): Mishap[] {
  const used = task.equipment.map((use) => equipment.find(({ id }) => id === use.equipment)?.mishap);
  return [task.mishap, ...used].filter((one) => one !== undefined);
}
