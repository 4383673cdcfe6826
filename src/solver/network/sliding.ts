import { gridFrom, gridTo, instant, type Interval } from "../../kernel/index.ts";
import { openingsOfActivity } from "../problem/starts.ts";
import type { Day } from "./day.ts";

/**
 * Starts of `activity` on crew choice `c` of a day when everything else may slide in its order.
 *
 * For each place in the order the earliest start comes out of the day itself. The latest is what slack allows, brought
 * forward by halving until the day holds with the activity no earlier than that. The others slide on the grid, and both ends of a
 * stretch lie on it; between two starts that hold all hold. Places that could only give starts in `known` are passed over.
 */
export function slidingBand(day: Day, activity: number, c: number, known: readonly Interval[]): Interval[] {
  const { problem, board } = day;
  const crew = problem.crewCount[activity]!;
  const at = problem.choiceAt[c]!;
  const eva = crew === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[at]!]!;
  const band: Interval[] = [...known];
  if (board.isOver(activity)) return band;
  const behind: number[] = [];
  const first = problem.slotStart[activity]!;
  const slots = problem.slotStart[activity + 1]! - first;

  const tryHere = (): void => {
    const room = day.roomAt(activity, behind, eva);
    if (!room) return;
    const { fromS } = room;
    let highS = room.toS;
    let lowS = fromS;
    if (!reaches(highS)) {
      for (;;) {
        // What lies on the grid between the two.
        const nextS = gridFrom(lowS + 1, problem.gridS);
        const lastS = gridTo(highS - 1, problem.gridS);
        if (nextS > lastS) break;
        const middleS = gridTo(Math.floor((nextS + lastS) / 2), problem.gridS);
        if (reaches(middleS)) lowS = middleS;
        else highS = middleS;
      }
      highS = lowS;
    }
    for (const window of openingsOfActivity(problem.windows, activity)) {
      const startS = Math.max(fromS, window.fromS);
      const endS = Math.min(highS, window.toS) + 1;
      if (startS < endS) band.push({ startS: instant(startS), endS: instant(endS) });
    }
  };
  const reaches = (startS: number): boolean => day.holdsAt(activity, behind, eva, startS);
  const across = (level: number, fromS: number, byS: number): void => {
    // Nothing new to be found between these.
    if (band.some((one) => one.startS <= fromS && byS < one.endS)) return;
    if (level === slots) tryHere();
    else if (level < crew) onRoute(level, fromS, byS);
    else onChains(level, fromS, byS);
  };
  const onRoute = (level: number, fromS: number, byS: number): void => {
    const r = problem.choiceRoutes[at + level]!;
    const legs = problem.legS[r]!;
    const { lengthS, endsAt, beginsAt, places } = problem;
    for (let p = board.head + r; p !== board.tail + r; p = board.next[p]!) {
      const i = board.nodeOf[p]!;
      const j = board.nodeOf[board.next[p]!]!;
      const meetS = Math.max(
        fromS,
        board.earliest[i]! + lengthS[i]! + legs[endsAt[i]! * places + beginsAt[activity]!]!,
      );
      const endS = Math.min(
        byS,
        board.latest[j]! - lengthS[activity]! - legs[endsAt[activity]! * places + beginsAt[j]!]!,
      );
      if (meetS > endS) continue;
      behind[level] = p;
      across(level + 1, meetS, endS);
    }
  };
  /** A unit of equipment: any place in the order of any unit that no other slot of the activity has. */
  const onChains = (level: number, fromS: number, byS: number): void => {
    const equipment = problem.slotEquipment[first + level]!;
    for (let c = problem.chainStart[equipment]!; c < problem.chainStart[equipment + 1]!; c += 1) {
      const chain = problem.routes + c;
      if (behind.slice(crew, level).some((p) => board.lane[p] === chain)) continue;
      for (let p = board.head + chain; p !== board.tail + chain; p = board.next[p]!) {
        const i = board.nodeOf[p]!;
        const meetS = Math.max(fromS, board.earliest[i]! + problem.lengthS[i]!);
        const endS = Math.min(byS, board.latest[board.nodeOf[board.next[p]!]!]! - problem.lengthS[activity]!);
        if (meetS > endS) continue;
        behind[level] = p;
        across(level + 1, meetS, endS);
      }
    }
  };
  across(0, -Infinity, Infinity);
  return band;
}
