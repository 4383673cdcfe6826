import type { Stretch } from "../../answers/index.ts";
import type { WayHome } from "../../check/index.ts";
import type { Plan } from "../../plan/index.ts";
import { arePlaced, bearing, isPlaced, metres, minutes } from "../../words/index.ts";
import { placeName } from "./crewday.ts";

/** Directions and distances over the ground between places, level and straight. */

/** A place of which somebody has said where it lies; the lander where none is named. */
function pointOf(plan: Plan, id: string | undefined) {
  return plan.site.places.find(
    (place) => (id === undefined ? place.kind === "lander" : place.id === id) && isPlaced(place),
  );
}

/** From one place to another in a straight line, m; null where one is not known. The lander where none is named. */
export function distanceM(plan: Plan, from: string | undefined, to: string | undefined): number | null {
  const [a, b] = [pointOf(plan, from), pointOf(plan, to)];
  return a && b ? Math.hypot(b.eastM - a.eastM, b.northM - a.northM) : null;
}

/** Direction from one place to another, degrees from north over east; NaN where they are one or not known. */
export function headingDeg(plan: Plan, from: string | undefined, to: string | undefined): number {
  const [a, b] = [pointOf(plan, from), pointOf(plan, to)];
  if (!a || !b || (a.eastM === b.eastM && a.northM === b.northM)) return NaN;
  return ((Math.atan2(b.eastM - a.eastM, b.northM - a.northM) * 180) / Math.PI + 360) % 360;
}

/** Direction of the first stop of a way; empty where it goes nowhere. */
export function bearingAlong(plan: Plan, through: readonly string[]): string {
  const deg = headingDeg(plan, through[0], through[1]);
  return through.length < 2 || Number.isNaN(deg) ? "" : bearing(deg);
}

/** Direction, length and time of a way; that it is unknown where nobody has said where one of its places lies. */
export function alongWords(
  plan: Plan,
  { path, walkM }: Pick<Stretch, "path" | "walkM">,
  wayS: number,
): string[] {
  if (!arePlaced(plan, path)) return ["way unknown"];
  return [bearingAlong(plan, path), metres(walkM, "up"), minutes(wayS, "up")];
}

/** How the way home leads where it does not go straight to the lander; empty where it does, but for what heights lead it round. */
export function ledBy(plan: Plan, { through, leg }: WayHome): string {
  const by = through.slice(1, -1).map((id) => placeName(plan, id));
  return [
    ...(by.length > 0 ? [`by ${by.join(", ")}`] : []),
    ...(leg ? ["by the way laid out: it may bend"] : []),
  ].join(", ");
}
