import { instant } from "../kernel/index.ts";
import type { Placement, Schedule } from "../plan/index.ts";
import type { Board } from "./board.ts";
import type { Day } from "./day.ts";
import { choiceOf } from "./verify.ts";

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
 * Lays `schedule` on an empty day in the order of its starts, each activity behind all that start before it. What breaks a
 * rule is left out; gives how many placements were.
 */
export function lay(day: Day, schedule: Schedule): number {
  const { problem, board } = day;
  const { plan } = problem;
  const index = new Map(plan.tasks.map((task, a) => [task.id, a]));
  const order = schedule.placements
    .flatMap((placement) => {
      const a = index.get(placement.task);
      return a === undefined ? [] : [{ a, placement }];
    })
    .sort((x, y) => x.placement.startS - y.placement.startS || x.a - y.a);
  let leftOut = schedule.placements.length - order.length;
  for (const { a, placement } of order) {
    const c = board.placed[a] === 1 ? -1 : choiceOf(problem, a, placement);
    const behind = c < 0 ? null : lastSlots(day, a, c);
    const eva = problem.crewCount[a] === 0 ? -1 : plan.evas.findIndex((one) => one.id === placement.eva);
    if (!behind || !day.tryLink(a, behind, eva)) leftOut += 1;
  }
  return leftOut;
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
