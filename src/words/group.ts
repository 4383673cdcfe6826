import type { Group } from "../plan/index.ts";
import { counted, listed } from "./list.ts";

/** What a group asks for: `Trenches: at least 1 and at most 2 of 3 tasks; counting 100 %, 50 %, each further one as the last.` */
export function groupWords({ name, tasks, least, most, shares }: Group): string {
  const numbers = [
    ...(least > 0 ? [`at least ${least}`] : []),
    ...(most === undefined ? [] : [`at most ${most}`]),
  ];
  const of =
    numbers.length === 0
      ? counted(tasks.length, "task")
      : `${listed(numbers)} of ${counted(tasks.length, "task")}`;
  const counts =
    shares.length === 0
      ? ""
      : `; counting ${shares.map((share) => `${share} %`).join(", ")}, each further one as the last`;
  return `${name}: ${of}${counts}.`;
}
