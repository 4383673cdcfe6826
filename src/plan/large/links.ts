import type { Random } from "../../kernel/index.ts";
import { minutes } from "./clock.ts";
import { follows } from "./order.ts";
import type { LinkInput, TaskInput } from "./parts.ts";
import { oneOf } from "./tasks.ts";

/**
 * Links between tasks of one district, always from the earlier in the list to the later, so never in a circle; a
 * must-do task is never made to wait for an optional one. Fewer than `count` where there are no more pairs of such tasks.
 */
export function linksOf(random: Random, count: number, tasks: readonly TaskInput[]): LinkInput[] {
  const links = new Map<string, LinkInput>();
  const pairs = tasks.reduce((sum, _, first) => sum + behind(tasks, first).length, 0);
  while (links.size < Math.min(count, pairs)) {
    const first = random.below(tasks.length);
    const a = tasks[first]!;
    const near = behind(tasks, first);
    if (near.length === 0) continue;
    const b = oneOf(random, near);
    const pair = `${a.id}-${b.id}`;
    if (!links.has(pair)) links.set(pair, linkBetween(random, pair, a, b));
  }
  return [...links.values()];
}

/** The tasks later in the list that one may be linked to. */
function behind(tasks: readonly TaskInput[], first: number): TaskInput[] {
  const a = tasks[first]!;
  return tasks.slice(first + 1).filter((b) => districtOf(b) === districtOf(a) && a.must === b.must);
}

function linkBetween(random: Random, id: string, a: TaskInput, b: TaskInput): LinkInput {
  const dice = random.next();
  // Two tasks for different numbers of crew members can have neither the same crew nor, with two, none in common.
  const single = (a.crew?.count ?? 1) === 1 && (b.crew?.count ?? 1) === 1;
  const free = a.crew?.qualification === undefined && b.crew?.qualification === undefined;
  const tasks: [string, string] = [a.id, b.id];
  // Must-do tasks are only put in order: whatever the seed, they can be placed together.
  if (a.must) return follows(a.id, b.id, { needs: "none" });
  if (dice < 0.12 && single && free) return { id, type: "crew", tasks, crew: "same" };
  if (dice < 0.2 && single && free) return { id, type: "crew", tasks, crew: "different" };
  if (dice < 0.3) return { id, type: "eva", tasks };
  if (dice < 0.36 && a.place !== b.place) return { id, type: "apart", tasks, leastM: 15 };
  if (dice < 0.55) return follows(a.id, b.id, { greatestS: minutes(40 + random.below(80)), needs: "both" });
  if (dice < 0.75) return follows(a.id, b.id, { leastS: minutes(random.below(20)), needs: "none" });
  return follows(a.id, b.id);
}

function districtOf(task: TaskInput): string {
  return (task.place ?? "").replace(/-\d+$/, "");
}
