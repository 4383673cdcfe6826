import { addSeconds, isValid, parseISO } from "date-fns";
import { isTouchdownKnown, type Stay } from "../plan/index.ts";
import { type Side, stepped } from "./number.ts";

/**
 * Universal time, whatever zone the machine is in: moments of mission time on the calendar. Its zero is null where nobody has said when
 * the lander touches down; then no moment has a place there, and a dash says so.
 */

/** A touchdown as the plan writes it, in milliseconds since 1970; null where nobody has given it. */
export function touchdownMs({
  stay,
}: {
  readonly stay: Pick<Stay, "touchdownUtc" | "toGive">;
}): number | null {
  return isTouchdownKnown({ stay }) ? parseISO(stay.touchdownUtc).getTime() : null;
}

/** Instead of a moment that has no place on the calendar. */
const NOT_KNOWN = "–";

/** `06:24`, with seconds where they are not zero; to a side, the whole minute on that side. */
export function utcClock(zeroMs: number | null, atS: number, side: Side = "given"): string {
  if (zeroMs === null) return NOT_KNOWN;
  const zeroS = zeroMs / 1000;
  const shownS = side === "given" ? atS : stepped(zeroS + atS, 60, side) * 60 - zeroS;
  const text = iso(zeroMs, shownS).slice(11, 19);
  return text.endsWith(":00") ? text.slice(0, 5) : text;
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** `5 Apr`. */
export function utcDay(zeroMs: number | null, atS: number): string {
  if (zeroMs === null) return NOT_KNOWN;
  const when = addSeconds(zeroMs, Math.round(atS));
  return `${when.getUTCDate()} ${MONTHS[when.getUTCMonth()]}`;
}

/** `5 Apr 2031`. */
export function utcYearDay(zeroMs: number | null, atS: number): string {
  if (zeroMs === null) return NOT_KNOWN;
  return `${utcDay(zeroMs, atS)} ${iso(zeroMs, atS).slice(0, 4)}`;
}

/** `5 Apr 2031 14:05`. */
export function utcDate(zeroMs: number | null, atS: number): string {
  if (zeroMs === null) return NOT_KNOWN;
  return `${utcYearDay(zeroMs, atS)} ${utcClock(zeroMs, atS)}`;
}

/** Milliseconds since 1970 at which a day begins, written by month or by the day of the year (ISO 8601: `2031-04-05`, `2031-095`); null where the calendar has none such. */
export function dayBeginsMs(day: string): number | null {
  const begins = parseISO(`${day}T00:00:00Z`);
  return isValid(begins) ? begins.getTime() : null;
}

/** To the second, ISO 8601: `2031-04-05T14:05:00Z`. */
export function utcStamp(zeroMs: number, atS: number): string {
  return `${iso(zeroMs, atS).slice(0, 19)}Z`;
}

function iso(zeroMs: number, atS: number): string {
  return addSeconds(zeroMs, Math.round(atS)).toISOString();
}
