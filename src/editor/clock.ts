/**
 * Time and amounts as the trade reads them. Hours and minutes are `h:mm`; lengths under an hour are `12 min`. Seconds follow only where they are not
 * zero. What is needed is rounded up, what is left is rounded down: never a margin larger than it is.
 */

const MINUS = "−";

/** Mission elapsed time `4:17`, or `4:17:30` where there are seconds; a true minus sign before touchdown. */
export function met(atS: number): string {
  const whole = Math.floor(Math.abs(atS));
  const seconds = whole % 60;
  const minutes = Math.floor(whole / 60) % 60;
  const hours = Math.floor(whole / 3600);
  const tail = seconds === 0 ? "" : `:${two(seconds)}`;
  return `${atS < 0 ? MINUS : ""}${hours}:${two(minutes)}${tail}`;
}

/** Universal time `06:24` of mission elapsed `atS`, with seconds where they are not zero. `touchdownMs` since 1970. */
export function utc(touchdownMs: number, atS: number): string {
  const date = new Date(touchdownMs + Math.round(atS) * 1000);
  const seconds = date.getUTCSeconds();
  const tail = seconds === 0 ? "" : `:${two(seconds)}`;
  return `${two(date.getUTCHours())}:${two(date.getUTCMinutes())}${tail}`;
}

/** Which clock times are read on: mission elapsed, phase elapsed (since egress of the EVA), universal. */
export type ClockKind = "met" | "pet" | "utc";

/** An EVA that takes place: from egress to ingress. */
export interface Phase {
  readonly eva: string;
  readonly name: string;
  readonly startS: number;
  readonly endS: number;
}

/** What a clock needs: touchdown in milliseconds since 1970, and the EVAs in the plan's order. */
export interface Dial {
  readonly kind: ClockKind;
  readonly touchdownMs: number;
  readonly phases: readonly Phase[];
}

/** The EVA whose phase time the axis reads at `atS`: the first that is under way then; null between EVAs. */
export function phaseAt(phases: Dial["phases"], atS: number): Phase | null {
  return phases.find((one) => atS >= one.startS && atS <= one.endS) ?? null;
}

/**
 * `atS` on the dial's clock. Phase time is counted from the egress of `eva` where that is given, and else from that of
 * the EVA under way, which it then names; where there is none it is mission time, and says so.
 */
export function clockText(dial: Dial, atS: number, eva: string | null = null): string {
  if (dial.kind === "utc") return utc(dial.touchdownMs, atS);
  if (dial.kind === "met") return met(atS);
  const own = dial.phases.find((one) => one.eva === eva);
  if (own) return met(atS - own.startS);
  const phase = phaseAt(dial.phases, atS);
  return phase ? `${phase.name} ${met(atS - phase.startS)}` : `MET ${met(atS)}`;
}

/** A length rounded up to whole minutes: what something takes. `12 min`, from an hour on `1:05`. */
export function lasts(lengthS: number): string {
  return span(Math.ceil(lengthS / 60) * 60, Math.ceil);
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** The day of universal time, `5 Apr`. */
export function utcDay(touchdownMs: number, atS: number): string {
  const date = new Date(touchdownMs + Math.round(atS) * 1000);
  return `${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]}`;
}

/** A length that is needed, rounded up: `45 s`, `12 min`, `1:05`. */
export function needed(lengthS: number): string {
  return span(lengthS, Math.ceil);
}

/** A length that is left, rounded down: `45 s`, `12 min`, `1:05`; negative ones away from zero. */
export function left(lengthS: number): string {
  return span(lengthS, Math.floor);
}

/** A share that is left, in whole percent rounded down: 0.0699 gives `6 %`, -0.001 gives `−1 %`. */
export function percentLeft(share: number): string {
  const percent = Math.floor(Math.round(share * 1e7) / 1e5);
  return `${percent < 0 ? MINUS : ""}${Math.abs(percent)} %`;
}

/** A difference with its sign: `+3`, `−2`, `0`. */
export function signed(value: number): string {
  if (value === 0) return "0";
  return `${value < 0 ? MINUS : "+"}${grouped(Math.abs(value))}`;
}

/** A whole number with thin groups of three: `1 874`. */
export function grouped(value: number): string {
  const text = String(Math.abs(Math.trunc(value))).replace(/\B(?=(\d{3})+$)/g, "\u202f");
  return `${value < 0 ? MINUS : ""}${text}`;
}

function span(lengthS: number, round: (value: number) => number): string {
  const rounded = Math.abs(lengthS) < 60 ? round(lengthS) : round(lengthS / 60) * 60;
  const size = Math.abs(rounded);
  const sign = rounded < 0 ? MINUS : "";
  if (size < 60) return size === 0 ? "0 min" : `${sign}${size} s`;
  const minutes = Math.round(size / 60);
  if (minutes < 60) return `${sign}${minutes} min`;
  return `${sign}${Math.floor(minutes / 60)}:${two(minutes % 60)}`;
}

function two(value: number): string {
  return String(value).padStart(2, "0");
}
