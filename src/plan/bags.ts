import type { Task } from "./task.ts";

/**
 * What stands on the sample bags of a task: their own numbers, else the task's number and a count from 1, "32-4" being the fourth bag
 * of task 32. None where nothing is brought back, null where nobody has said how many there are.
 */
export function bagNumbers({ sample }: Pick<Task, "sample">, number: string): readonly string[] | null {
  if (!sample) return [];
  const { bags } = sample;
  if (bags === undefined) return null;
  return typeof bags === "number" ? Array.from({ length: bags }, (_, k) => `${number}-${k + 1}`) : bags;
}
