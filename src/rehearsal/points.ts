import { duration } from "../kernel/index.ts";
import type { Plan } from "../plan/index.ts";
import type { RehearsedWays } from "./walking.ts";

type Place = Plan["site"]["places"][number];
type Leg = Plan["site"]["legs"][number];

/** A point on a way, where what somebody walked to was called off: a place from then on, with legs where its ways cannot be laid out. */
export interface Point {
  readonly place: Place;
  readonly legs: readonly Leg[];
}

/**
 * The point that is reached on the way from `start` to `end` after `walkedS`; null where there is no such way or it is at its end by then.
 * `places` are all there are so far.
 */
export function pointOn(
  ways: RehearsedWays,
  places: readonly Place[],
  start: string,
  end: string,
  walkedS: number,
): Point | null {
  const path = ways.through(start, end);
  let restS = walkedS;
  let walkedM = 0;
  for (let k = 1; k < path.length; k += 1) {
    const from = places.find(({ id }) => id === path[k - 1]);
    const to = places.find(({ id }) => id === path[k]);
    if (!from || !to) return null;
    const hopS = ways.secondsS(from.id, to.id) ?? 0;
    const hopM = ways.metresM(from.id, to.id) ?? 0;
    if (restS < hopS) {
      const share = restS / hopS;
      return laid(ways, places, { start, walkedS, walkedM: walkedM + share * hopM, from, to, restS, share });
    }
    restS -= hopS;
    walkedM += hopM;
  }
  return null;
}

interface Hop {
  readonly start: string;
  readonly walkedS: number;
  readonly walkedM: number;
  readonly from: Place;
  readonly to: Place;
  readonly restS: number;
  readonly share: number;
}

function laid(ways: RehearsedWays, places: readonly Place[], hop: Hop): Point {
  const { from, to, share } = hop;
  const onWay = ways.pointOn(from.id, to.id, hop.restS);
  const at = (a: number, b: number): number => a + share * (b - a);
  const place: Place = {
    ...from,
    // No place of the plan has a colon in its id.
    id: `rehearsed:at-${places.length}`,
    name: `between ${from.name} and ${to.name}`.slice(0, 120),
    kind: "station",
    eastM: onWay?.eastM ?? at(from.eastM, to.eastM),
    northM: onWay?.northM ?? at(from.northM, to.northM),
    upM: onWay?.upM ?? at(from.upM, to.upM),
  };
  const legs: Leg[] = [];
  const leg = (a: string, b: string, seconds: number, metres: number): void => {
    const distanceM = Math.ceil(metres - 1e-9);
    legs.push({ from: a, to: b, distanceM, durationS: duration(seconds), bothWays: false });
  };
  // A part of a straight way is a straight way; any other one is as they have walked it.
  if (!onWay?.straight) leg(hop.start, place.id, hop.walkedS, hop.walkedM);
  if (!onWay)
    for (const { id } of places) {
      const way = sooner(part(ways, to.id, 1 - share, hop, id), part(ways, from.id, share, hop, id));
      if (way) leg(place.id, id, way.seconds, way.metres);
    }
  return { place, legs };
}

interface Way {
  readonly seconds: number;
  readonly metres: number;
}

/** From inside of a hop on to its end `by`, of which `share` is before them, and to `target`. */
function part(ways: RehearsedWays, by: string, share: number, { from, to }: Hop, target: string): Way | null {
  const other = by === to.id ? from.id : to.id;
  const hopS = ways.secondsS(other, by);
  const thenS = ways.secondsS(by, target);
  if (hopS === null || thenS === null) return null;
  return {
    seconds: Math.ceil(share * hopS - 1e-9) + thenS,
    metres: share * ways.metresM(other, by)! + ways.metresM(by, target)!,
  };
}

function sooner(a: Way | null, b: Way | null): Way | null {
  if (!a || !b) return a ?? b;
  return a.seconds <= b.seconds ? a : b;
}
