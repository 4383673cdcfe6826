import { addSeconds, parseISO } from "date-fns";
import { type Side, stepped } from "./number.ts";

/** Universal time, whatever zone the machine is in: moments of mission time on the calendar. */

/** A touchdown as the plan writes it, in milliseconds since 1970. */
export function touchdownMs({ stay }: { readonly stay: { readonly touchdownUtc: string } }): number {
  return parseISO(stay.touchdownUtc).getTime();
}

/** `06:24`, with seconds where they are not zero; to a side, the whole minute on that side. */
export function utcClock(zeroMs: number, atS: number, side: Side = "given"): string {
  const zeroS = zeroMs / 1000;
  const shownS = side === "given" ? atS : stepped(zeroS + atS, 60, side) * 60 - zeroS;
  const said = iso(zeroMs, shownS).slice(11, 19);
  return said.endsWith(":00") ? said.slice(0, 5) : said;
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** `5 Apr`. */
export function utcDay(zeroMs: number, atS: number): string {
  const when = addSeconds(zeroMs, Math.round(atS));
  return `${when.getUTCDate()} ${MONTHS[when.getUTCMonth()]}`;
}

/** `5 Apr 2031`. */
export function utcYearDay(zeroMs: number, atS: number): string {
  return `${utcDay(zeroMs, atS)} ${iso(zeroMs, atS).slice(0, 4)}`;
}

/** `5 Apr 2031 14:05`. */
export function utcDate(zeroMs: number, atS: number): string {
  return `${utcYearDay(zeroMs, atS)} ${utcClock(zeroMs, atS)}`;
}

/** To the second, ISO 8601: `2031-04-05T14:05:00Z`. */
export function utcStamp(zeroMs: number, atS: number): string {
  return `${iso(zeroMs, atS).slice(0, 19)}Z`;
}

function iso(zeroMs: number, atS: number): string {
  return addSeconds(zeroMs, Math.round(atS)).toISOString();
}
