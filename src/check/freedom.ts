import type { Schedule } from "../plan/index.ts";
import type { Departures } from "./departures.ts";
import type { Prepared } from "./prepared.ts";
import { apart, type Move, movesIn, movesOf } from "./separation.ts";
import { DISTANCE_TOLERANCE_M } from "./thresholds.ts";
import type { CrewOuting } from "./crewouting.ts";
import { walkthroughOf } from "./walkthrough.ts";

/** Two crew members who may come farther apart than crew-separation allows, and how far, m. */
export interface TooFarApart {
  readonly eva: string;
  readonly crew: readonly [string, string];
  readonly worstM: number;
}

/**
 * Who of a schedule may come too far apart at a corner of a way, where each crew member leaves for each task at any moment
 * between `earliest` and `latest`.
 *
 * At any moment somebody may be anywhere on the piece of way between where the latest and where the earliest departure has
 * them. The farthest two such pieces are apart is between ends or corners of theirs. Ends are tested by judging the
 * earliest and the latest departures in every pairing; here each corner is held, as long as somebody may be at it,
 * against the other one's ends and corners.
 */
export function cornersApart(
  prepared: Prepared,
  schedule: Schedule,
  earliest: Departures,
  latest: Departures,
): TooFarApart[] {
  const { greatestM } = prepared.plan.rules.separation;
  const early = walkthroughOf(prepared, schedule, earliest).outs;
  const late = walkthroughOf(prepared, schedule, latest).outs;
  return early.flatMap(({ eva, crewOutings }, k) => {
    const free = crewOutings.map((crewOuting, i) =>
      freedomOf(prepared, crewOuting, late[k]!.crewOutings[i]!),
    );
    return crewOutings.flatMap((one, a) =>
      crewOutings.slice(a + 1).flatMap((other, rest): TooFarApart[] => {
        const worstM = worstOf(free[a]!, free[a + 1 + rest]!);
        if (worstM <= greatestM + DISTANCE_TOLERANCE_M) return [];
        return [{ eva: eva.id, crew: [one.outing.crew, other.outing.crew], worstM }];
      }),
    );
  });
}

/** Where somebody is with the earliest and with the latest departures, and at which corners they may be when. */
interface Freedom {
  readonly early: readonly Move[];
  readonly late: readonly Move[];
  readonly corners: readonly Move[];
}

function freedomOf(prepared: Prepared, early: CrewOuting, late: CrewOuting): Freedom {
  const waysOf = (crewOuting: CrewOuting) =>
    crewOuting.steps.filter(({ stretch }) => stretch.kind === "traverse");
  const later = waysOf(late);
  const corners = waysOf(early).flatMap((step, k) => {
    const freeS = later[k]!.drawnFromS - step.drawnFromS;
    if (freeS <= 0) return [];
    return movesIn(prepared, step)
      .slice(0, -1)
      .map(({ endS, to, ...on }): Move => ({ ...on, startS: endS, endS: endS + freeS, from: to, to }));
  });
  return { early: movesOf(prepared, early), late: movesOf(prepared, late), corners };
}

function worstOf(a: Freedom, b: Freedom): number {
  let worstM = 0;
  const hold = (corner: Move, moves: readonly Move[]): void => {
    for (const { value } of apart([corner], moves)) worstM = Math.max(worstM, value);
  };
  for (const [one, other] of [
    [a, b],
    [b, a],
  ] as const)
    for (const corner of one.corners) {
      hold(corner, other.early);
      hold(corner, other.late);
      for (const meets of other.corners) hold(corner, [meets]);
    }
  return worstM;
}
