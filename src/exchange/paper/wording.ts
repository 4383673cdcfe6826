/**
 * Numbers as the crew reads them. Rounding is always to the side that keeps a margin: moments and limits down
 * (leave sooner), walking times and masses up.
 */

/** A moment as h:mm, the begun minute counted down; "-0:01" before zero. */
export function hourMinute(seconds: number): string {
  const minutes = Math.floor(seconds / 60);
  const size = Math.abs(minutes);
  return `${minutes < 0 ? "-" : ""}${Math.floor(size / 60)}:${pad(size % 60)}`;
}

/** Touchdown as milliseconds UTC since 1970. */
export function epochOf(touchdownUtc: string): number {
  return Date.parse(touchdownUtc);
}

/** UTC of a moment, HH:MM, the begun minute counted down. */
export function utcClock(epochMs: number, at: number): string {
  return new Date(epochMs + at * 1000).toISOString().slice(11, 16);
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
