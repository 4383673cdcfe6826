import type { Project } from "./problem.ts";

/** True when `start` keeps every lag, opening and capacity of `project`. */
export function isSound(project: Project, start: Int32Array): boolean {
  const { activities, length, lagFrom, lagTo, lag, openStart, openFrom, openTo } = project;
  for (let e = 0; e < lag.length; e += 1) if (start[lagTo[e]!]! < start[lagFrom[e]!]! + lag[e]!) return false;
  for (let a = 0; a < activities; a += 1) {
    let open = false;
    for (let k = openStart[a]!; k < openStart[a + 1]!; k += 1) {
      if (openFrom[k]! <= start[a]! && start[a]! <= openTo[k]!) open = true;
    }
    if (!open || !hasRoom(project, start, a)) return false;
  }
  // Use only ever rises where an activity starts, so looking there is enough.
  return length.length === start.length;
}

/** True when at the start of `a` no resource is in use beyond its capacity. */
function hasRoom(
  { activities, resources, capacity, demand, length }: Project,
  start: Int32Array,
  a: number,
): boolean {
  const at = start[a]!;
  for (let r = 0; r < resources; r += 1) {
    let use = 0;
    for (let b = 0; b < activities; b += 1) {
      if (start[b]! <= at && at < start[b]! + length[b]!) use += demand[b * resources + r]!;
    }
    if (use > capacity[r]!) return false;
  }
  return true;
}
