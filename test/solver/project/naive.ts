import type { Project } from "../../../src/solver/project/problem.ts";

/**
 * The same semantics once more, as plainly as can be: nothing here is shared with the solver but the data, and every
 * unit of time is looked at.
 */
export function breachesOf(project: Project, start: ArrayLike<number>): string[] {
  const { activities, resources, capacity, demand, length, lagFrom, lagTo, lag } = project;
  const found: string[] = [];
  for (let e = 0; e < lag.length; e += 1) {
    const from = lagFrom[e]!;
    const to = lagTo[e]!;
    if (start[to]! - start[from]! < lag[e]!) found.push(`lag ${e}: ${from} to ${to} below ${lag[e]}`);
  }
  for (let a = 0; a < activities; a += 1) {
    let open = false;
    for (let k = project.openStart[a]!; k < project.openStart[a + 1]!; k += 1) {
      if (start[a]! >= project.openFrom[k]! && start[a]! <= project.openTo[k]!) open = true;
    }
    if (!open) found.push(`activity ${a} starts at ${start[a]}, outside its openings`);
  }
  const end = Math.max(...Array.from({ length: activities }, (_, a) => start[a]! + length[a]!));
  for (let t = 0; t < end; t += 1) {
    for (let r = 0; r < resources; r += 1) {
      let use = 0;
      for (let a = 0; a < activities; a += 1) {
        if (start[a]! <= t && t < start[a]! + length[a]!) use += demand[a * resources + r]!;
      }
      if (use > capacity[r]!) found.push(`resource ${r} at ${t}: ${use} of ${capacity[r]}`);
    }
  }
  return found;
}

/** The earliest finish of all schedules, by trying every start of every activity; Infinity when there is none. */
export function bruteFinish(project: Project): number {
  const { activities, length, openStart, openFrom, openTo } = project;
  let best = Infinity;
  const start: number[] = [];
  const place = (a: number): void => {
    if (a === activities) {
      const finish = Math.max(...start.map((at, b) => at + length[b]!));
      if (finish < best && breachesOf(project, start).length === 0) best = finish;
      return;
    }
    for (let k = openStart[a]!; k < openStart[a + 1]!; k += 1) {
      for (let at = openFrom[k]!; at <= openTo[k]!; at += 1) {
        start[a] = at;
        place(a + 1);
      }
    }
  };
  place(0);
  return best;
}
