import { instant } from "../kernel/index.ts";
import type { Placement, Schedule } from "../plan/index.ts";
import type { Board } from "./board.ts";
import type { Day } from "./day.ts";
import { read } from "./verify.ts";

/** The board as a schedule: every activity at its earliest start, in the plan's order of tasks. */
export function scheduleOf(board: Board): Schedule {
  const { problem } = board;
  const { plan } = problem;
  const placements: Placement[] = [];
  plan.tasks.forEach((task, a) => {
    if (board.placed[a] === 0) return;
    const e = board.evaOf[a]!;
    const first = problem.slotStart[a]!;
    const members: number[] = [];
    for (let k = 0; k < problem.crewCount[a]!; k += 1)
      members.push(problem.memberOfRoute[board.lane[first + k]!]!);
    placements.push({
      task: task.id,
      eva: e < 0 ? null : plan.evas[e]!.id,
      crew: members.sort((x, y) => x - y).map((m) => plan.crew[m]!.id),
      startS: instant(board.earliest[a]!),
    });
  });
  return { placements };
}

/**
 * Lays `schedule` on an empty day in the order of its starts: all of it at once where that holds, else one after the other
 * and without what breaks a rule. Gives how many placements were left out.
 */
export function lay(day: Day, schedule: Schedule): number {
  const { problem, board } = day;
  const { stands, unread } = read(problem, schedule);
  const order = [...stands].sort((x, y) => x.startS - y.startS || x.activity - y.activity);
  let leftOut = unread.length;
  const linked: number[] = [];
  for (const { activity, choice } of order) {
    if (board.placed[activity] === 1) continue;
    const behind = lastSlots(day, activity, choice);
    if (!behind) continue;
    board.earliest[activity] = order[linked.length]!.startS;
    board.link(activity, behind, evaOf(day, activity, choice));
    linked.push(activity);
  }
  if (linked.length === order.length && day.settle()) return leftOut;
  for (const activity of linked) board.unlink(activity);
  day.settle();
  for (const { activity, choice } of order) {
    const behind = board.placed[activity] === 1 ? null : lastSlots(day, activity, choice);
    if (!behind || !day.tryLink(activity, behind, evaOf(day, activity, choice))) leftOut += 1;
  }
  return leftOut;
}

function evaOf(day: Day, activity: number, choice: number): number {
  const { problem } = day;
  if (problem.crewCount[activity] === 0) return -1;
  return problem.evaOfRoute[problem.choiceRoutes[problem.choiceAt[choice]!]!]!;
}

/** The last slots of the choice's routes, and of the chains that are free soonest. */
function lastSlots(day: Day, a: number, c: number): number[] | null {
  const { problem, board } = day;
  const behind: number[] = [];
  const crew = problem.crewCount[a]!;
  for (let k = 0; k < crew; k += 1)
    behind.push(board.prev[board.tail + problem.choiceRoutes[problem.choiceAt[c]! + k]!]!);
  const taken = new Set<number>();
  for (let s = problem.slotStart[a]! + crew; s < problem.slotStart[a + 1]!; s += 1) {
    const q = problem.slotEquipment[s]!;
    let best = -1;
    let bestS = Infinity;
    for (let n = problem.chainStart[q]!; n < problem.chainStart[q + 1]!; n += 1) {
      if (taken.has(n)) continue;
      const last = board.prev[board.tail + problem.routes + n]!;
      const i = board.nodeOf[last]!;
      const freeS = board.earliest[i]! + problem.lengthS[i]!;
      if (freeS >= bestS) continue;
      best = n;
      bestS = freeS;
    }
    if (best < 0) return null;
    taken.add(best);
    behind.push(board.prev[board.tail + problem.routes + best]!);
  }
  return behind;
}
