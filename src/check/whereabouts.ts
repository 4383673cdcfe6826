import type { Prepared } from "./prepared.ts";
import type { Step } from "./steps.ts";
import type { CrewOuting } from "./crewouting.ts";

/** Where somebody outside is at a moment: at a place, or between two. */
export interface Whereabouts {
  /** Place indices; the same where they stay. */
  readonly from: number;
  readonly to: number;
  /** So much of the way is behind them, 0 to 1. */
  readonly share: number;
  /** Seconds until they are at the hatch by the planned way, or by the walk-back where that takes longer; -1 where there is none. */
  readonly homeS: number;
  /** Walk-back; between two places the worst of that way, wherever on it they are. -1 where there is none. */
  readonly walkbackS: number;
  /** Slope angles that the walk-back may count with, radians. */
  readonly walkbackSlopesRad: readonly number[];
  /** Metabolic rates of the ways that lead home from there, W. */
  readonly waysW: readonly number[];
}

/**
 * Where `crewOuting` is at `atS`, that lies in `step`. Who is on a way goes on or back, whichever is home sooner, at the planned pace and having
 * left when the schedule has it. Who walks inside a task may be anywhere on its way: the worst of it counts.
 */
export function whereabouts(
  prepared: Prepared,
  crewOuting: CrewOuting,
  step: Step,
  atS: number,
): Whereabouts {
  const { ways, home } = prepared;
  const { kind } = step.stretch;
  // What has begun at the hatch is brought to its end before anybody comes in again.
  if (kind === "egress") return at(step.from, step.from, 0, Math.ceil(step.drawnToS - atS), step.homeFromS);
  if (kind === "ingress") return at(step.from, step.from, 0, 0, step.homeFromS);
  if (kind === "traverse") return onWay();
  const { from, to, peakS } = step;
  const share = from === to ? 0 : shareOf(step.drawnFromS, step.drawnToS, atS);
  if (from === to && kind === "wait") return at(from, to, share, fromPlace(from), step.homeFromS);
  const walkbackS = worst(step.homeFromS, step.homeToS, peakS);
  return {
    ...at(from, to, share, worst(fromPlace(from), fromPlace(to), peakS), walkbackS),
    walkbackSlopesRad: [step.slopeFromRad, step.slopeToRad, step.slopePeakRad],
  };

  function onWay(): Whereabouts {
    const hop = hopAt(ways, step, atS);
    const [a, b] = hop;
    const done = shareOf(hop[2], hop[3], atS);
    const onS = along(a, b, 1 - done, fromPlace(b));
    const backS = along(b, a, done, fromPlace(a));
    const homeS = Math.min(onS, backS);
    const peakS = home.peakS[a * ways.size + b]!;
    return at(a, b, done, homeS === Infinity ? -1 : Math.ceil(homeS - 1e-6), peakS);
  }

  function at(a: number, b: number, share: number, homeS: number, walkbackS: number): Whereabouts {
    const cells = [
      a * ways.size + b,
      b * ways.size + a,
      a * ways.size + ways.lander,
      b * ways.size + ways.lander,
    ];
    return {
      from: a,
      to: b,
      share,
      homeS,
      walkbackS,
      walkbackSlopesRad: [
        home.placeSlopeRad[a]!,
        home.placeSlopeRad[b]!,
        ...(a === b ? [] : [home.peakSlopeRad[a * ways.size + b]!]),
      ],
      waysW: cells.map((cell) => crewOuting.walker.wayW(cell)),
    };
  }

  /** Seconds to the hatch from a place; -1 where there is no way. */
  function fromPlace(place: number): number {
    const plannedS = ways.durationS[place * ways.size + ways.lander]!;
    return Math.max(plannedS, home.placeS[place]!);
  }

  function along(a: number, b: number, part: number, thenS: number): number {
    const wayS = ways.durationS[a * ways.size + b]!;
    return wayS < 0 || thenS < 0 ? Infinity : part * wayS + thenS;
  }
}

/** The hop of a way through other places that is walked, and when it is. */
function hopAt(
  ways: Prepared["ways"],
  step: Step,
  atS: number,
): readonly [from: number, to: number, startS: number, endS: number] {
  const path = step.stretch.path.map((id) => ways.index.get(id) ?? ways.lander);
  let startS = step.drawnFromS;
  for (let k = 1; k < path.length - 1; k += 1) {
    const endS = startS + Math.max(0, ways.durationS[path[k - 1]! * ways.size + path[k]!]!);
    if (atS < endS) return [path[k - 1]!, path[k]!, startS, endS];
    startS = endS;
  }
  return [path.at(-2) ?? step.from, path.at(-1) ?? step.to, startS, step.drawnToS];
}

function shareOf(startS: number, endS: number, atS: number): number {
  return endS <= startS ? 1 : Math.min(1, Math.max(0, (atS - startS) / (endS - startS)));
}

/** The longest of walk-backs, where -1 (no way) is the worst of all. */
function worst(...seconds: readonly number[]): number {
  return seconds.some((one) => one < 0) ? -1 : Math.max(...seconds);
}
