import { LONGEST_NUMBER, shortName } from "./fields.ts";
import type { Task } from "./task.ts";

type Numbered = Pick<Task, "id" | "number">;

/** Numbers that a person may take for each other are the same. */
const folded = (number: string): string => number.toUpperCase();

/**
 * The number of every task, by id: its own where it has one, else the next whole number that is free, in the order of the
 * tasks. A plan that was read has a number on each (`numbered`), which then stays whatever else is added, removed or packed.
 */
export function taskNumbers(tasks: readonly Numbered[]): ReadonlyMap<string, string> {
  const taken = new Set(tasks.flatMap(({ number }) => (number === undefined ? [] : [folded(number)])));
  let next = 1;
  const free = (): string => {
    while (taken.has(String(next))) next += 1;
    return String(next++);
  };
  return new Map(tasks.map(({ id, number }) => [id, number ?? free()]));
}

/** The tasks, each with its number. */
export function numbered<One extends Numbered>(tasks: readonly One[]): One[] {
  const numbers = taskNumbers(tasks);
  // Put in behind the id, where the number stands in every file.
  return tasks.map((task) => {
    const { id, number = numbers.get(id) ?? id } = task;
    return Object.assign({ id, number }, task, { number });
  });
}

/** True for what the number of a task may be. */
export function isTaskNumber(text: string): boolean {
  return shortName.safeParse(text).success;
}

/** A number for a new task: behind the greatest whole number that is in use, so that none comes back. */
export function freshNumber(tasks: readonly Numbered[]): string {
  const whole = [...taskNumbers(tasks).values()].filter((one) => /^\d+$/.test(one)).map(Number);
  return String(Math.max(0, ...whole) + 1);
}

/** A number for the second part of a task: the first's with a letter, "12" and "12b"; a new one where no letter is left. */
export function partNumber(tasks: readonly Numbered[], number: string): string {
  const taken = new Set([...taskNumbers(tasks).values()].map(folded));
  const [, stem = number] = /^(.*\d)[b-z]$/i.exec(number) ?? [];
  const letter = [..."bcdefghijkmnpqrstuvwxyz"].find((one) => !taken.has(folded(`${stem}${one}`)));
  return letter === undefined || stem.length >= LONGEST_NUMBER ? freshNumber(tasks) : `${stem}${letter}`;
}
