import { instant, type Instant } from "../../kernel/index.ts";

/**
 * Numbers as the crew reads them. A moment of the day (start, end, egress, ingress, leaving) is printed as it is, with
 * its seconds where it has any: the judge has tested that moment and no other. What bounds a moment is put on whole
 * minutes to the side that keeps the margin, by what it means:
 *
 * | meaning                                              | function      | begun minutes   |
 * | ---------------------------------------------------- | ------------- | --------------- |
 * | a moment of the day, a length of the day             | `clock`       | kept as they are |
 * | no later than, a pass that closes                    | `latest`      | down            |
 * | a window                                             | `windowWords` | up to down      |
 * | a walk, a reserve kept back, a rest that is asked for | `minutesUp`   | up              |
 * | what is left                                         | `minutesDown` | down            |
 */

/** A moment or a length of the day as h:mm, with seconds where there are any; "-0:01" before zero. */
export function clock(seconds: number): string {
  const size = Math.abs(seconds);
  const rest = size % 60;
  const tail = rest === 0 ? "" : `:${pad(rest)}`;
  return `${seconds < 0 ? "-" : ""}${Math.floor(size / 3600)}:${pad(Math.floor(size / 60) % 60)}${tail}`;
}

/**
 * The last moment by which something must be over: the whole minute before it, or the moment itself where what is
 * planned ends in that begun minute.
 */
export function latest(limitS: Instant, plannedS: Instant | null): Instant {
  const wholeS = instant(minute(Math.floor, limitS));
  return plannedS !== null && wholeS < plannedS && plannedS <= limitS ? limitS : wholeS;
}

/**
 * A window as "h:mm to h:mm", on whole minutes inside it; as it is, with seconds, where that would leave out a part of
 * what is planned in it.
 */
export function windowWords(window: Span, planned: Span): string {
  const whole = { startS: minute(Math.ceil, window.startS), endS: minute(Math.floor, window.endS) };
  const fits = whole.startS <= planned.startS && planned.endS <= whole.endS;
  const { startS, endS } = fits ? whole : window;
  return `${clock(startS)} to ${clock(endS)}`;
}

interface Span {
  readonly startS: number;
  readonly endS: number;
}

/** A moment on a whole minute; never -0. */
function minute(round: (value: number) => number, seconds: number): number {
  return round(seconds / 60) * 60 + 0;
}

/** Touchdown as milliseconds UTC since 1970. */
export function epochOf(touchdownUtc: string): number {
  return Date.parse(touchdownUtc);
}

/** UTC of a moment, HH:MM, with seconds where there are any. */
export function utcClock(epochMs: number, at: number): string {
  const clock = new Date(epochMs + at * 1000).toISOString().slice(11, 19);
  return clock.endsWith(":00") ? clock.slice(0, 5) : clock;
}

/** UTC date and time of a moment, such as "5 Apr 2031 14:05". */
export function utcDate(epochMs: number, at: number): string {
  const when = new Date(epochMs + at * 1000);
  return `${when.getUTCDate()} ${months[when.getUTCMonth()]!} ${when.getUTCFullYear()} ${utcClock(epochMs, at)}`;
}

/** UTC date alone, such as "5 Apr". */
export function utcDay(epochMs: number, at: number): string {
  const when = new Date(epochMs + at * 1000);
  return `${when.getUTCDate()} ${months[when.getUTCMonth()]!}`;
}

/** UTC to the second, ISO 8601. */
export function utcStamp(epochMs: number, at: number): string {
  return new Date(epochMs + at * 1000).toISOString().replace(".000Z", "Z");
}

/** A length of time in minutes, begun minutes counted up: for walks. */
export function minutesUp(seconds: number): string {
  return `${Math.ceil(seconds / 60)} min`;
}

/** A length of time in minutes, begun minutes dropped: for what is left. */
export function minutesDown(seconds: number): string {
  return `${Math.floor(seconds / 60)} min`;
}

/** A length of time in full: "25 min", "25 min 30 s", "40 s". */
export function exactly(seconds: number): string {
  const minutes = Math.floor(seconds / 60);
  const rest = seconds % 60;
  if (minutes === 0) return `${rest} s`;
  return rest === 0 ? `${minutes} min` : `${minutes} min ${rest} s`;
}

/** A mass, counted up to the next 0.1 kg; products of binary fractions such as 0.1 + 0.2 are not pushed up. */
export function kilograms(massKg: number): string {
  return `${trim(Math.ceil(massKg * 10 - 1e-6) / 10)} kg`;
}

/** A distance in whole metres, counted up. */
export function metresUp(distanceM: number): string {
  return `${Math.ceil(distanceM)} m`;
}

/** A share as whole percent, counted down. */
export function percentDown(share: number): string {
  return `${Math.floor(share * 100 + 1e-9)} %`;
}

const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

function pad(value: number): string {
  return String(value).padStart(2, "0");
}

function trim(value: number): string {
  return String(Number(value.toFixed(1)));
}
