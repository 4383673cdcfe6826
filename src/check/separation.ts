import type { SeparationTrack } from "../answers/index.ts";
import { instant, remembered } from "../kernel/index.ts";
import { courseOf, distance, type Point } from "../terrain/index.ts";
import type { Prepared } from "./prepared.ts";
import type { Step } from "./steps.ts";
import type { Out, CrewOuting } from "./crewouting.ts";

/** Straight and steady movement from one point to another. */
export interface Move {
  /** The task at work meanwhile, and how far from the line it may lead; who does the same one goes along. */
  readonly task: string | null;
  readonly roamM: number;
  readonly startS: number;
  readonly endS: number;
  readonly from: Point;
  readonly to: Point;
}

/**
 * Distance between every two crew members of an EVA. Both move straight and steadily between breakpoints, so the
 * distance is convex there and greatest at a breakpoint: the track's points are all that has to be tested. All through
 * a task that may lead off its way (S5) each may be as much farther out; two who do it together are not.
 */
export const separationTracks = remembered(
  ({ eva, crewOutings }: Out, prepared: Prepared): readonly SeparationTrack[] => {
    const moves = crewOutings.map((crewOuting) => movesOf(prepared, crewOuting));
    const tracks: SeparationTrack[] = [];
    for (let a = 0; a < crewOutings.length; a += 1) {
      for (let b = a + 1; b < crewOutings.length; b += 1) {
        tracks.push({
          eva: eva.id,
          crew: [crewOutings[a]!.outing.crew, crewOutings[b]!.outing.crew],
          points: apart(moves[a]!, moves[b]!),
        });
      }
    }
    return tracks;
  },
);

/** Where somebody is, all through their outing. */
export function movesOf(prepared: Prepared, crewOuting: CrewOuting): Move[] {
  return crewOuting.steps.flatMap((step) => movesIn(prepared, step));
}

/** Where somebody is in one step: straight from place to place, or over a height grid along the way. */
export function movesIn({ ways, plan }: Prepared, step: Step): Move[] {
  const moves: Move[] = [];
  const { stretch, roamM } = step;
  const { task, path } = stretch;
  const move = (startS: number, endS: number, from: number, to: number): void => {
    const course = courseOf(ways, plan.site.places, from * ways.size + to, endS - startS);
    const points = course?.points ?? [plan.site.places[from]!, plan.site.places[to]!];
    const atS = course?.atS ?? [0, endS - startS];
    for (let k = 1; k < points.length; k += 1)
      moves.push({
        task,
        roamM,
        startS: startS + atS[k - 1]!,
        endS: startS + atS[k]!,
        from: points[k - 1]!,
        to: points[k]!,
      });
  };
  if (stretch.kind !== "traverse" || path.length <= 2) {
    move(step.drawnFromS, step.drawnToS, step.from, step.to);
    return moves;
  }
  let startS = step.drawnFromS;
  for (let k = 1; k < path.length; k += 1) {
    const from = ways.index.get(path[k - 1]!)!;
    const to = ways.index.get(path[k]!)!;
    const endS =
      k === path.length - 1
        ? step.drawnToS
        : Math.min(step.drawnToS, startS + ways.durationS[from * ways.size + to]!);
    move(startS, endS, from, to);
    startS = endS;
  }
  return moves;
}

/** Distances wherever one of the two begins or ends a move. */
export function apart(a: readonly Move[], b: readonly Move[]): SeparationTrack["points"] {
  const points: { atS: ReturnType<typeof instant>; value: number }[] = [];
  const mark = (atS: number, one: Move, other: Move, roamM: number): void => {
    const value = distance(where(one, atS), where(other, atS)) + roamM;
    const last = points.at(-1);
    if (last?.atS !== atS || last.value !== value) points.push({ atS: instant(atS), value });
  };
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const one = a[i]!;
    const other = b[j]!;
    const startS = Math.max(one.startS, other.startS);
    const endS = Math.min(one.endS, other.endS);
    if (startS <= endS) {
      const together = one.task !== null && one.task === other.task;
      const roamM = endS === startS || together ? 0 : one.roamM + other.roamM;
      mark(startS, one, other, roamM);
      if (endS > startS) mark(endS, one, other, roamM);
    }
    if (one.endS < other.endS || (one.endS === other.endS && i + 1 < a.length)) i += 1;
    else j += 1;
  }
  return points;
}

/** Where a movement is at a moment. */
export function where(move: Move, atS: number): Point {
  // At its very end a move is where it goes, not a rounding error beside it.
  if (atS >= move.endS) return move.to;
  const share = (atS - move.startS) / (move.endS - move.startS);
  return {
    eastM: move.from.eastM + (move.to.eastM - move.from.eastM) * share,
    northM: move.from.northM + (move.to.northM - move.from.northM) * share,
  };
}
