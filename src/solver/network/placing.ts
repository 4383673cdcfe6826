import { instant } from "../../kernel/index.ts";
import type { Placement, Schedule } from "../../plan/index.ts";
import { type Board, NO_FLOOR } from "./board.ts";
import type { Day } from "./day.ts";
import type { Problem } from "../problem/problem.ts";
import { read, type PlacedActivity } from "./verify.ts";

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
 * Lays `schedule` on an empty day in the order of its starts, and gives how many placements were left out: none of a sound
 * schedule's.
 *
 * All at once where that holds at earliest starts. Rests and holds are asked for where the earliest starts need them, which
 * can end in a day that does not hold though the schedule does; then every start is held where it is, which holds when the
 * schedule does, and let go again one after the other as long as the day still holds. What breaks a rule either way is left
 * out, the rest laid one after the other.
 */
export function loadSchedule(day: Day, schedule: Schedule): number {
  const { problem, board } = day;
  const { placings, unread } = read(problem, schedule);
  const { lengthS } = problem;
  const order = [...placings].sort(
    (x, y) => x.startS - y.startS || lengthS[x.activity]! - lengthS[y.activity]! || x.activity - y.activity,
  );
  const single = order.filter((one, k) => order.findIndex((two) => two.activity === one.activity) === k);
  const over = problem.groups === null ? null : overIn(problem, single);
  const once = over ? single.filter(({ activity }) => !over.has(activity)) : single;
  const twice = unread.length + order.length - once.length;
  const linked = insertAll(day, once);
  if (linked && day.settle()) return twice;
  if (linked) {
    for (const { activity, startS } of once) board.floorS[activity] = startS;
    if (day.settle()) {
      releaseStarts(day, once);
      return twice;
    }
  }
  return twice + layOneByOne(day, once);
}

/** Lays what holds of `order`, one after the other, without what needs something of it that does not; how many were left out. */
function layOneByOne(day: Day, order: readonly PlacedActivity[]): number {
  const { placed } = day.board;
  const { needs } = day.problem;
  const given = new Set(order.map(({ activity }) => activity));
  const lacks = ({ activity }: PlacedActivity): boolean =>
    placed[activity] === 1 && needs[activity]!.some((one) => placed[one] === 0 && given.has(one));
  let list = order;
  for (;;) {
    removeAll(day, order);
    const out = list.filter((placing) => !linkOne(day, placing)).length;
    const left = list.filter((placing) => !lacks(placing));
    if (left.length === list.length) return order.length - list.length + out;
    list = left;
  }
}

/** Which of `placings` are too many of a group, pinned and must-do ones kept first, then the most worth; and what needs them. */
function overIn(
  { plan, groups, must, worth, neededBy }: Problem,
  placings: readonly PlacedActivity[],
): Set<number> {
  const over = new Set<number>();
  const leave = (a: number): void => {
    if (over.has(a)) return;
    over.add(a);
    neededBy[a]!.forEach(leave);
  };
  const kept = new Map<number, number>();
  const rank = (a: number): number => (plan.tasks[a]!.pin ? 2 : 0) + must[a]!;
  const byWorth = placings
    .map(({ activity }) => activity)
    .sort((a, b) => rank(b) - rank(a) || worth[b]! - worth[a]! || a - b);
  for (const a of byWorth) {
    const of = groups?.of[a] ?? [];
    if (of.some((g) => (kept.get(g) ?? 0) >= groups!.most[g]!)) leave(a);
    else for (const g of of) kept.set(g, (kept.get(g) ?? 0) + 1);
  }
  return over;
}

/** Links everything in order of start, times not worked out; false, with what was linked, when a unit of equipment is missing. */
export function insertAll(day: Day, order: readonly PlacedActivity[]): boolean {
  const { board } = day;
  for (const { activity, choice, startS } of order) {
    const behind = lastSlots(day, activity, choice, startS);
    if (!behind || board.placed[activity] === 1) return false;
    board.earliest[activity] = startS;
    board.link(activity, behind, evaOf(day, activity, choice));
  }
  return true;
}

/** Lets held starts go where the day holds without: half of them at once, and by halves again where it does not. */
export function releaseStarts(day: Day, order: readonly PlacedActivity[]): void {
  const { board } = day;
  const release = (list: readonly PlacedActivity[]): void => {
    for (const { activity } of list) board.floorS[activity] = NO_FLOOR;
    if (day.settle()) return;
    for (const { activity, startS } of list) board.floorS[activity] = startS;
    if (list.length === 1) return;
    const half = Math.ceil(list.length / 2);
    release(list.slice(0, half));
    release(list.slice(half));
  };
  release(order);
  day.settle();
}

function removeAll(day: Day, order: readonly PlacedActivity[]): void {
  for (const { activity } of order) if (day.board.placed[activity] === 1) day.board.unlink(activity);
  day.settle();
}

/** Places one more behind what stands, as soon as that can be, else not before its own start. */
function linkOne(day: Day, placing: PlacedActivity): boolean {
  const { activity, choice, startS } = placing;
  const { board } = day;
  const eva = evaOf(day, activity, choice);
  const behind = lastSlots(day, activity, choice, startS);
  if (!behind || board.placed[activity] === 1) return false;
  if (day.tryLink(activity, behind, eva)) return true;
  board.floorS[activity] = startS;
  if (day.tryLink(activity, behind, eva)) return true;
  board.floorS[activity] = NO_FLOOR;
  return false;
}

function evaOf(day: Day, activity: number, choice: number): number {
  const { problem } = day;
  if (problem.crewCount[activity] === 0) return -1;
  return problem.evaOfRoute[problem.choiceRoutes[problem.choiceAt[choice]!]!]!;
}

/** The last slots of the choice's routes, and of the first chains free at `startS`, else of those free soonest. */
function lastSlots(day: Day, a: number, c: number, startS: number): number[] | null {
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
      const freeS = Math.max(startS, board.earliest[i]! + problem.lengthS[i]!);
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
