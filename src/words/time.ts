import { instant, type Instant } from "../kernel/index.ts";
import { grouped, MINUS, type Side, stepped } from "./number.ts";

/**
 * The one clock. A moment is `h:mm` from touchdown, and a length of an hour or more `h:mm` too.
 *
 * A moment that is planned or was tested is said as it is: rounded, it would be another moment, which nobody has checked.
 * So a plan on whole minutes reads in minutes, and a second is said just where there is one. What bounds a moment is put on
 * whole minutes to the side that keeps the margin:
 *
 * | meaning                                      | said by                              | begun minutes    |
 * | -------------------------------------------- | ------------------------------------ | ---------------- |
 * | a moment of the day                          | `clock`, `met`                       | kept as they are |
 * | no later than, a pass that closes            | `noLaterThan`, `clock(atS, "down")`  | down             |
 * | not before                                   | `clock(atS, "up")`                   | up               |
 * | a window                                     | `inside`                             | up to down       |
 * | about when an EVA is out, at a glance        | `clockText` to a side                | outwards         |
 * | a walk, what is kept back, what is asked for | `lasting(s, "up")`, `minutes`        | up               |
 * | what is left or allowed                      | `lasting(s, "down")`, `timeLeft`     | down             |
 */

/** A moment, or what was counted on a clock: `5:07`, with seconds `5:07:30` where there are any and none are to be left off. */
export function clock(atS: number, side: Side = "given"): string {
  const at = side === "given" ? Math.floor(atS) : stepped(atS, 60, side) * 60;
  return at < 0 ? MINUS + hms(-at) : hms(at);
}

/** A moment of mission elapsed time in a sentence: `5:07 MET`. */
export function met(atS: number, side: Side = "given"): string {
  return `${clock(atS, side)} MET`;
}

/** A moment of phase elapsed time, counted from egress, in a sentence: `1:20 PET`. */
export function pet(afterS: number): string {
  return `${clock(afterS)} PET`;
}

/** A moment always with its seconds, so that a column of them can be added up: `1:05:30`. */
export function clockToSecond(atS: number): string {
  const text = clock(Math.round(atS));
  return text.split(":").length === 2 ? `${text}:00` : text;
}

/**
 * The last moment by which something must be over, as it is to be said: the whole minute before it, or the moment itself
 * where what is planned ends in that begun minute.
 */
export function noLaterThan(limitS: Instant, plannedS: Instant | null): Instant {
  const wholeS = instant(stepped(limitS, 60, "down") * 60);
  return plannedS !== null && wholeS < plannedS && plannedS <= limitS ? limitS : wholeS;
}

/** A window as `h:mm to h:mm`, on whole minutes inside it; as it is where that would leave out a part of what is planned in it. */
export function inside(window: Span, planned: Span): string {
  const startS = stepped(window.startS, 60, "up") * 60;
  const endS = stepped(window.endS, 60, "down") * 60;
  const fits = startS <= planned.startS && planned.endS <= endS;
  return fits ? `${clock(startS)} to ${clock(endS)}` : `${clock(window.startS)} to ${clock(window.endS)}`;
}

interface Span {
  readonly startS: number;
  readonly endS: number;
}

/** A length of time: `45 s`, `12 min`, `1:05`; as given `12 min 30 s` and `1:05:30`. Below zero with a minus sign. */
export function lasting(seconds: number, side: Side): string {
  if (side === "given") return seconds < 0 ? MINUS + exactly(-seconds) : exactly(seconds);
  const size = Math.abs(seconds) < 60 ? stepped(seconds, 1, side) : stepped(seconds, 60, side) * 60;
  return size < 0 ? MINUS + exactly(-size) : exactly(size);
}

/** The time there is for something, rounded down; `no time` where there is less than none. */
export function timeLeft(seconds: number): string {
  return seconds < 0 ? "no time" : lasting(seconds, "down");
}

/**
 * A length in minutes however long it is, for paper, where it must not be taken for a moment, and for labels that hold the
 * unit: `75 min`; as given `75 min 30 s`, `40 s`.
 */
export function minutes(seconds: number, side: Side): string {
  const size = side === "given" ? seconds : stepped(seconds, 60, side) * 60;
  return size < 0 ? MINUS + inMinutes(-size) : inMinutes(size);
}

/** The figure of a length in whole minutes, where the unit is said for all of them at once: `12`. */
export function minuteFigure(seconds: number, side: "up" | "down"): string {
  return grouped(stepped(seconds, 60, side));
}

/** By how much something is later or earlier: `+12 min`, `−75 min`; as given `−3 min 20 s`. */
export function shift(seconds: number, side: Side): string {
  return `${seconds > 0 ? "+" : ""}${minutes(seconds, side)}`;
}

/** A length in whole hours, for where it only says how long a thing is about: `22 h`. */
export function hours(seconds: number, side: "up" | "down"): string {
  return `${stepped(seconds, 3600, side)} h`;
}

/** The starts on a grid of `gridS` seconds: `whole minutes`, `whole multiples of 5 min`, `whole multiples of 30 s`. */
export function gridName(gridS: number): string {
  return gridS === 60 ? "whole minutes" : `whole multiples of ${minutes(gridS, "given")}`;
}

function exactly(seconds: number): string {
  return seconds >= 3600 ? hms(seconds) : inMinutes(seconds);
}

function inMinutes(seconds: number): string {
  const rest = seconds % 60;
  if (seconds < 60) return rest === 0 ? "0 min" : `${rest} s`;
  return `${Math.floor(seconds / 60)} min${rest === 0 ? "" : ` ${rest} s`}`;
}

function hms(seconds: number): string {
  const rest = seconds % 60;
  return [
    Math.floor(seconds / 3600),
    two(Math.floor(seconds / 60) % 60),
    ...(rest === 0 ? [] : [two(rest)]),
  ].join(":");
}

function two(value: number): string {
  return String(value).padStart(2, "0");
}
