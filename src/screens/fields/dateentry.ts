import { done, failed, type Outcome } from "../../kernel/index.ts";
import { dayBeginsMs, utcStamp } from "../../words/index.ts";
import { text, type Entry } from "./entry.ts";

/**
 * A moment in UTC as people write it: the date by year, month and day in any order that can be told, by a month's name or by the day
 * of the year, and the time by 24 hours or with am and pm, before or after it. What may be two dates is asked about.
 */

/** A day as it was written; the calendar need not have it. */
interface Day {
  /** By month or by the day of the year, ISO 8601. */
  readonly iso: string;
  /** That the calendar has none such, in words. */
  readonly none: string;
}

const MONTHS = [
  "january",
  "february",
  "march",
  "april",
  "may",
  "june",
  "july",
  "august",
  "september",
  "october",
  "november",
  "december",
];

const TIME = String.raw`(\d{1,2}):?(\d\d)(?::?(\d\d)(?:[.,]0+)?)?\s*([ap]\.?m\.?)?`;
const ZONE = String.raw`(Z|UTC?|GMT|[+−-]\d\d:?\d\d)?`;
const DATE_FIRST = new RegExp(
  String.raw`^(.+?)(?:\s*T\s*|,\s*|\s+(?:at\s+)?|\/(?=\d\d?:))${TIME}\s*${ZONE}$`,
  "i",
);
const TIME_FIRST = new RegExp(
  String.raw`^(\d{1,2}):(\d\d)(?::(\d\d))?\s*([ap]\.?m\.?)?\s*${ZONE}[,\s]+(?:on\s+)?(.+)$`,
  "i",
);
const WEEKDAY = /^(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?\.?,?\s+/i;

/** The moment as the document holds it, `2031-04-05T06:07:00Z`, or in words why there is none. */
function utcIn(draft: string): Outcome<string, string> {
  const written = draft.trim();
  // Before a time without a colon is looked for: a year has four figures too.
  const alone = dayIn(written);
  if (alone !== null)
    return failed(typeof alone === "string" ? alone : "The time is missing: 2031-04-05 06:07.");
  const [, date, ...time] = turned(TIME_FIRST.exec(written)) ?? DATE_FIRST.exec(written) ?? [];
  if (date === undefined) return failed(FORM);
  const day = dayIn(date);
  if (day === null) return failed(FORM);
  if (typeof day === "string") return failed(day);
  const seconds = secondsOfDay(time);
  if (seconds === null) return failed("There is no such time of day: write 00:00 to 23:59.");
  const beginsMs = dayBeginsMs(day.iso);
  return beginsMs === null ? failed(day.none) : done(utcStamp(beginsMs, seconds));
}

const FORM = "Write day and time, UTC: 2031-04-05 06:07, or 5 Apr 2031 6:07.";

/** A moment of the document as people write it; one that is more exact than a second stands as it is. */
function written(value: unknown): string {
  const [, day, minute, seconds] =
    /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d)(:\d\d)?Z$/.exec(typeof value === "string" ? value : "") ?? [];
  if (day === undefined || minute === undefined) return typeof value === "string" ? value : "";
  return `${day} ${minute}${seconds === undefined || seconds === ":00" ? "" : seconds}`;
}

/** A moment in UTC. */
export const utc: Entry = {
  ...text,
  show: written,
  draft: written,
  read: (draft) => (draft.trim() === "" ? failed("Must not be empty.") : utcIn(draft)),
  form: "2031-04-05 06:07, 5 Apr 2031 6:07, or by the day of the year 2031-095 06:07.",
};

/** The date last in a match, put first. */
function turned(match: RegExpExecArray | null): readonly (string | undefined)[] | null {
  if (!match) return null;
  const [all, hours, minutes, seconds, half, zone, date] = match;
  return [all, date, hours, minutes, seconds, half, zone];
}

/** Seconds from the begin of the day in UTC; null where there is no such time. */
function secondsOfDay([h = "", m = "", s = "0", half, zone]: readonly (string | undefined)[]): number | null {
  let hours = Number(h);
  if (half !== undefined) {
    if (hours < 1 || hours > 12) return null;
    hours = (hours % 12) + (half.toLowerCase().startsWith("p") ? 12 : 0);
  }
  if (hours > 23 || Number(m) > 59 || Number(s) > 59) return null;
  const [, sign, zoneH = "0", zoneM = "0"] = /^([+−-])(\d\d):?(\d\d)$/.exec(zone ?? "") ?? [];
  const aheadS = (Number(zoneH) * 3600 + Number(zoneM) * 60) * (sign === "+" ? 1 : -1);
  return hours * 3600 + Number(m) * 60 + Number(s) - aheadS;
}

/** The day that a text names: null where it names none, words where it may be two or lacks something. */
function dayIn(written: string): Day | string | null {
  const given = written.trim().replace(WEEKDAY, "").replace(/,$/, "");
  const ordinal = /^(\d{4})[-/ ]?(\d{3})$/.exec(given);
  if (ordinal) {
    const [, year, count] = ordinal;
    return { iso: `${year}-${count}`, none: `There is no day ${Number(count)} in ${year}.` };
  }
  const iso = /^(\d{4})([-/. ]?)(\d{1,2})\2(\d{1,2})$/.exec(given);
  // Without signs between, all of a date's eight figures stand there.
  if (iso) return iso[2] === "" && given.length !== 8 ? null : dayOf(iso[1], iso[3], iso[4]);
  const named =
    /^(?<day>\d{1,2})(?:st|nd|rd|th)?\.?[\s-]*(?:of\s+)?(?<month>[a-z]{3,9})\.?,?[\s-]*(?<year>\d{2,4})$/i.exec(
      given,
    ) ??
    /^(?<month>[a-z]{3,9})\.?[\s-]+(?<day>\d{1,2})(?:st|nd|rd|th)?,?[\s-]+(?<year>\d{2,4})$/i.exec(given) ??
    /^(?<year>\d{4})[\s-]*(?<month>[a-z]{3,9})\.?[\s-]*(?<day>\d{1,2})$/i.exec(given);
  if (named?.groups) {
    const { year, month = "", day } = named.groups;
    const number = MONTHS.findIndex((one) => one.startsWith(month.toLowerCase())) + 1;
    return number === 0 ? null : dayOf(year, String(number), day);
  }
  const [, a, b, year] = /^(\d{1,2})[./-](\d{1,2})[./-](\d{2,4})$/.exec(given) ?? [];
  return year === undefined ? null : eitherDay(Number(a), Number(b), year, given.includes("."));
}

/** With points the day leads; with strokes it may be either, unless one of the two is no month. */
function eitherDay(a: number, b: number, year: string, pointed: boolean): Day | string {
  if (pointed || a > 12 || a === b) return dayOf(year, String(b), String(a));
  if (b > 12) return dayOf(year, String(a), String(b));
  const iso = (month: number, day: number): string => `${year}-${two(month)}-${two(day)}`;
  return `It may be ${iso(a, b)} or ${iso(b, a)}: write the one that is meant.`;
}

function dayOf(year = "", month = "", day = ""): Day | string {
  if (year.length !== 4) return "Write the year with four figures: 2031.";
  if (Number(month) < 1 || Number(month) > 12) return `There is no month ${Number(month)}.`;
  return {
    iso: `${year}-${two(Number(month))}-${two(Number(day))}`,
    none: `There is no day ${Number(day)} in that month.`,
  };
}

const two = (value: number): string => String(value).padStart(2, "0");
