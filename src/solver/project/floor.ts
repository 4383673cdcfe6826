import { finishOf, type Project } from "./problem.ts";
import type { Span } from "./network.ts";

/**
 * A finish that no schedule beats: the critical path, and for each resource the work of every group of activities
 * that begin no earlier than a head and leave no less than a tail (energy between heads and tails; for one machine
 * Carlier 1982, "The one-machine sequencing problem").
 */
export function floorOf(project: Project, span: Span): number {
  const { activities, resources, capacity, demand, length } = project;
  const tail = tailsOf(project);
  let floor = finishOf(project, span.earliest);
  for (let r = 0; r < resources; r += 1) {
    const users: number[] = [];
    for (let a = 0; a < activities; a += 1) if (demand[a * resources + r]! > 0) users.push(a);
    users.sort((a, b) => tail[b]! - tail[a]!);
    for (const head of new Set(users.map((a) => span.earliest[a]!))) {
      let work = 0;
      for (const a of users) {
        if (span.earliest[a]! < head) continue;
        work += length[a]! * demand[a * resources + r]!;
        floor = Math.max(floor, head + Math.ceil(work / capacity[r]!) + tail[a]!);
      }
    }
  }
  return floor;
}

/** By activity: from its end to the finish at least, as far as lags tell. Lags must have no positive cycle. */
export function tailsOf({ activities, length, lagFrom, lagTo, lag }: Project): Int32Array {
  const tail = new Int32Array(activities);
  for (let changed = true; changed;) {
    changed = false;
    for (let e = 0; e < lag.length; e += 1) {
      const from = lagFrom[e]!;
      const to = lagTo[e]!;
      const least = lag[e]! - length[from]! + length[to]! + tail[to]!;
      if (least <= tail[from]!) continue;
      tail[from] = least;
      changed = true;
    }
  }
  return tail;
}
