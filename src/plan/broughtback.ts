import { tasksById } from "./byid.ts";
import type { Plan } from "./plan.ts";
import type { Schedule } from "./schedule.ts";
import type { Task } from "./task.ts";

/** What the plan leaves unsaid of what comes back: a sum over it is a least, and what is left of a limit is not known. */

/** Of which amounts it is not told how much comes back. */
export interface Untold {
  readonly mass: boolean;
  readonly volume: boolean;
}

type Brought = Pick<Task, "kind" | "sample" | "bringsNothing">;

/** Something in a container has a mass and a volume: 0 there is a number that nobody has given. Sampling without a sample says neither, unless it is said to bring nothing back. */
export function untoldBack({ kind, sample, bringsNothing }: Brought): Untold {
  if (sample) return { mass: sample.massKg === 0, volume: sample.volumeL === 0 };
  const untold = kind === "sampling" && bringsNothing !== true;
  return { mass: untold, volume: untold };
}

/** Of which amounts the samples that `tasks` put into one container are a least. */
export function untoldIn(tasks: readonly Task[], container: string): Untold {
  const all = tasks.filter(({ sample }) => sample?.container === container).map(untoldBack);
  return { mass: all.some(({ mass }) => mass), volume: all.some(({ volume }) => volume) };
}

/** True where the mass that `tasks` bring back is a least: that of a sample is not told, or the empty mass of its container is nobody's. */
export function isReturnLeast({ containers }: Pick<Plan, "containers">, tasks: readonly Task[]): boolean {
  const used = new Set(tasks.map(({ sample }) => sample?.container));
  return (
    containers.some(({ id, toGive }) => used.has(id) && toGive?.includes("emptyMassKg")) ||
    tasks.some((task) => untoldBack(task).mass)
  );
}

/** The tasks that a schedule places. */
export function tasksOn(plan: Pick<Plan, "tasks">, { placements }: Schedule): Task[] {
  const tasks = tasksById(plan);
  return placements.flatMap(({ task }) => tasks.get(task) ?? []);
}
