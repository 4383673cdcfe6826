import { isSeenOver, type Skyline } from "../../src/terrain/skyline.ts";

/** Elevation of the horizon in one direction, degrees. */
export interface Horizon {
  /** What stands lower is surely hidden. */
  readonly leastDeg: number;
  /** What stands higher is surely seen. */
  readonly mostDeg: number;
}

/** The horizon at an azimuth, by halving between what is hidden and what is seen, to less than a billionth of a degree. */
export function horizonAt(line: Skyline, azimuthDeg: number): Horizon {
  const seenAt = (elevationDeg: number) => isSeenOver(line, { azimuthDeg, elevationDeg });
  return {
    leastDeg: turnDeg((elevationDeg) => seenAt(elevationDeg) !== "hidden"),
    mostDeg: turnDeg((elevationDeg) => seenAt(elevationDeg) === "seen"),
  };
}

/** Where `isOver` turns true on the way up, from the upper side. */
function turnDeg(isOver: (elevationDeg: number) => boolean): number {
  let [under, over] = [-90, 90];
  for (let halved = 0; halved < 40; halved += 1) {
    const middle = (under + over) / 2;
    if (isOver(middle)) over = middle;
    else under = middle;
  }
  return over;
}
