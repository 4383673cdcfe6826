import { ungrouped, unspaced } from "../../words/index.ts";
import { UNITS, type Sort } from "./targets.ts";

/** Numbers, times and ticks as people write them in lists. */

/** The sign before decimals in a list; the other one may stand between thousands. */
export type DecimalMark = "." | ",";

/** What a length of two numbers is in a list, `25:00`: hours and minutes, or minutes and seconds. */
export type ClockForm = "h:mm" | "m:ss";

/** How the numbers of a list are written. */
export interface Written {
  readonly mark: DecimalMark;
  readonly clocks: ClockForm;
}

const EITHER = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/;

/** A number; null where the text is none. `mark` decides of what may be thousands or decimals: `1,500`. */
function numberOf(text: string, mark: DecimalMark): number | null {
  const given = ungrouped(text);
  const others = mark === "." ? "," : ".";
  const grouped = new RegExp(`^[+-]?[1-9]\\d{0,2}(\\${others}\\d{3})+(\\${mark}\\d*)?$`).test(given);
  const plain = (grouped ? given.replaceAll(others, "") : given).replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

/** True for a number that another decimal mark would make another one. */
export function hangsOnMark(text: string): boolean {
  const [, number = ""] = /^([^a-z]*)/i.exec(text.trim()) ?? [];
  return EITHER.test(number.trim());
}

/** The decimal mark that the texts show by numbers that can be read in one way only. */
export function markIn(texts: Iterable<string>): DecimalMark {
  let commas = 0;
  for (const text of texts) {
    const [, sign] = /\d([.,])\d{1,2}(?!\d)/.exec(text) ?? [];
    if (sign === ",") commas += 1;
    if (sign === ".") commas -= 1;
  }
  return commas > 0 ? "," : ".";
}

const TWO_NUMBERS = /^(\d+):[0-5]\d$/;
/** No task lasts so long: where one would, its two numbers are taken for minutes and seconds, hours. */
const TOO_LONG_H = 10;

/** True for a length that the other form would make another one. */
export function hangsOnClock(text: string): boolean {
  return TWO_NUMBERS.test(text.trim());
}

/** The form that lengths of two numbers seem to have: hours and minutes, unless one would be longer than any task is. */
export function clocksIn(texts: Iterable<string>): ClockForm {
  for (const text of texts) {
    const [, first] = TWO_NUMBERS.exec(text.trim()) ?? [];
    if (first !== undefined && Number(first) >= TOO_LONG_H) return "m:ss";
  }
  return "h:mm";
}

/** An amount in units of the plan, bare numbers in `unit`; null where the text is none. */
export function amountOf(text: string, sort: Sort, unit: string, written: Written): number | null {
  const { mark } = written;
  if (sort === "time") {
    const seconds = secondsOf(text, unit, written);
    return seconds !== null && seconds <= LONGEST_S ? seconds : null;
  }
  const [, number = "", unitWritten = ""] = /^([^a-z]*\d[.,]?)\s*([a-z]*)$/i.exec(text.trim()) ?? [];
  const units = UNITS[sort] ?? {};
  const name =
    unitWritten === ""
      ? unit
      : Object.keys(units).find((one) => one.toLowerCase() === unitWritten.toLowerCase());
  const factor = name === "" ? 1 : units[name ?? "none"];
  const value = numberOf(number, mark);
  // Thousandths are written with three decimals, not multiplied with a remainder.
  return value === null || factor === undefined ? null : Number((value * factor).toPrecision(12));
}

/** Ten years: longer is no length of time that a plan holds, s. */
const LONGEST_S = 315_360_000;
const CLOCK = /^(\d+):([0-5]\d)(?::([0-5]\d))?\s*h?$/;
const SPELT =
  /^(?:([\d.,]+)h(?:rs?|ours?)?)?(?:([\d.,]+)(?:m|min|mins|minutes?|$))?(?:([\d.,]+)s(?:ec|econds?)?)?$/;

/**
 * True for a bare number that looks like the share of a day by which spreadsheets keep a time that nobody has put in a form for times:
 * 25 minutes are 0.01736. In minutes it would be a second.
 */
function isShareOfDay(bare: number, seconds: number): boolean {
  return !Number.isInteger(bare) && bare < 1 && seconds < SHORTEST_S;
}

/** No length of work is written as a part of a minute so short. */
const SHORTEST_S = 30;

/** Whole seconds of a length of time: `0:25`, `25 min`, `1 h 30`, `90`. */
function secondsOf(text: string, unit: string, { mark, clocks }: Written): number | null {
  const given = text.trim().toLowerCase();
  if (clocks === "m:ss" && hangsOnClock(given)) {
    const [minutes, seconds] = given.split(":");
    return Number(minutes) * 60 + Number(seconds);
  }
  const clock = CLOCK.exec(given);
  if (clock) return Number(clock[1]) * 3600 + Number(clock[2]) * 60 + Number(clock[3] ?? 0);
  const bare = numberOf(given, mark);
  if (bare !== null) {
    const seconds = bare * (UNITS.time?.[unit] ?? 60);
    return bare < 0 || isShareOfDay(bare, seconds) ? null : Math.round(seconds);
  }
  const spelt = SPELT.exec(unspaced(given));
  if (!spelt || spelt[0] === "") return null;
  const [hours, minutes, seconds] = spelt
    .slice(1)
    .map((part) => (part === undefined ? 0 : numberOf(part, mark)));
  if (hours === null || minutes === null || seconds === null) return null;
  return Math.round((hours ?? 0) * 3600 + (minutes ?? 0) * 60 + (seconds ?? 0));
}

/** Yes or no; null where the text is neither. A blank is no. */
export function tickOf(text: string): boolean | null {
  const word = text.trim().toLowerCase();
  if (/^(x|y|yes|true|1|must|✓|✔|•)$/.test(word)) return true;
  return /^(|n|no|false|0|-|–|optional)$/.test(word) ? false : null;
}
