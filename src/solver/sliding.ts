import { instant, type Interval } from "../kernel/index.ts";
import type { Day } from "./day.ts";

/**
 * Starts of `activity` on crew choice `c` of a day when everything else may slide in its order.
 *
 * For each place in the order the earliest start comes out of the day itself. The latest is what slack allows, brought
 * forward by halving until the day holds with the activity no earlier than that.
 */
export function slidingBand(day: Day, activity: number, c: number): Interval[] {
  const { problem, board } = day;
  const crew = problem.crewCount[activity]!;
  const at = problem.choiceAt[c]!;
  const eva = crew === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[at]!]!;
  const band: Interval[] = [];
  if (!board.holdsSample(activity)) return band;
  const behind: number[] = [];
  const units = problem.slotStart[activity + 1]! - problem.slotStart[activity]! - crew;
  // Units of equipment: the places of the order are those of the crew; units stand where they are free then.
  if (units > 0) return band;

  const tryHere = (): void => {
    if (!day.tryLink(activity, behind, eva)) return;
    const fromS = board.earliest[activity]!;
    let highS = board.latest[activity]!;
    day.unlink(activity);
    let lowS = fromS;
    if (!reaches(highS)) {
      while (highS - lowS > 1) {
        const middleS = Math.floor((lowS + highS) / 2);
        if (reaches(middleS)) lowS = middleS;
        else highS = middleS;
      }
      highS = lowS;
    }
    for (let k = problem.openStart[activity]!; k < problem.openStart[activity + 1]!; k += 1) {
      const startS = Math.max(fromS, problem.openFromS[k]!);
      const endS = Math.min(highS, problem.openToS[k]!) + 1;
      if (startS < endS) band.push({ startS: instant(startS), endS: instant(endS) });
    }
  };
  const reaches = (startS: number): boolean => day.holdsAt(activity, behind, eva, startS);
  const across = (level: number, fromS: number, byS: number): void => {
    if (level === crew) {
      tryHere();
      return;
    }
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
  across(0, -Infinity, Infinity);
  return band;
}
