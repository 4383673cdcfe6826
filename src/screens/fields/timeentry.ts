import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { FieldGuide } from "../../plan/index.ts";
import { clock, unspaced } from "../../words/index.ts";
import { emptyRead, type Entry, numberIn, partsOf } from "./entry.ts";

/**
 * Times and lengths of time as people write them: `1:30`, `1:30:15`, `90 min`, `90m`, `1h30`, `1 h 30 min`, `5400 s`, `2 d` of 24 hours.
 * A point in time is counted from touchdown and may be negative.
 */

const CLOCK = /^(\d+):([0-5]\d)(?::([0-5]\d))?$/;
const UNITS = /^(?:(\d+(?:\.\d+)?)d)?(?:(\d+(?:\.\d+)?)h)?(?:(\d+(?:\.\d+)?)(?:min|m|$))?(?:(\d+)s)?$/;

/** Whole seconds of a written time, sign included; null when it is none. A bare number is none either. */
export function secondsIn(draft: string): number | null {
  const plain = unspaced(draft.toLowerCase()).replace("−", "-").replace(",", ".");
  const negative = plain.startsWith("-");
  const size = plain.replace(/^[+-]/, "");
  const clock = CLOCK.exec(size);
  const seconds = clock
    ? Number(clock[1]) * 3600 + Number(clock[2]) * 60 + Number(clock[3] ?? 0)
    : secondsInUnits(size);
  if (seconds === null || !Number.isSafeInteger(seconds)) return null;
  return negative && seconds !== 0 ? -seconds : seconds;
}

function secondsInUnits(size: string): number | null {
  // Digits alone could be hours, minutes or seconds.
  if (size === "" || !/[dhms]/.test(size)) return null;
  const parts = UNITS.exec(size);
  if (!parts) return null;
  const [, days, hours, minutes, seconds] = parts;
  const wholeHours = Number(days ?? 0) * 24 + Number(hours ?? 0);
  return Math.round(wholeHours * 3600 + Number(minutes ?? 0) * 60 + Number(seconds ?? 0));
}

const show = (value: unknown): string => (typeof value === "number" ? clock(value) : "");

function bounds(seconds: number, guide: FieldGuide): Outcome<unknown, string> {
  if (guide.low !== null && seconds < guide.low) {
    return failed(guide.low === 0 ? "Must not be negative." : `At least ${clock(guide.low)}.`);
  }
  if (guide.high !== null && seconds > guide.high) return failed(`At most ${clock(guide.high)}.`);
  return done(seconds);
}

/** A line of time; `readS` gives the seconds of a draft, null where it is none, which is answered by `wanted`. */
function timeLine(readS: (draft: string) => number | null, wanted: string, form: string): Entry {
  return {
    editor: "line",
    align: "end",
    show,
    draft: show,
    read(draft, _plan, guide) {
      if (draft.trim() === "") return emptyRead(guide);
      const seconds = readS(draft);
      return seconds === null ? failed(wanted) : bounds(seconds, guide);
    },
    form,
  };
}

/** A point in time, `h:mm` from touchdown. */
export const moment = timeLine(
  secondsIn,
  "Write hours and minutes from touchdown, for instance 4:30.",
  "h:mm from touchdown (MET).",
);

/** A length of time; a bare number is minutes. */
export const span = timeLine(
  (draft) => {
    const bare = numberIn(draft);
    return bare === null ? secondsIn(draft) : Math.round(bare * 60);
  },
  "Write 1:30, 90 min or 45 s.",
  "h:mm, or minutes: 1:30, 90 min, 90, 45 s.",
);

interface Stretch {
  readonly startS: number;
  readonly endS: number;
}

/** Stretches of time, one a line: `1:00 to 2:30`. */
export const stretches: Entry = {
  editor: "area",
  align: "start",
  show: (value) => stretchesOf(value, "–", ", "),
  draft: (value) => stretchesOf(value, " to ", "\n"),
  read(draft) {
    const read: Stretch[] = [];
    for (const part of partsOf(draft, /[\n;]/)) {
      const [start, end, ...more] = part.split(/\s*(?:to|–|\.\.)\s*/);
      const startS = secondsIn(start ?? "");
      const endS = secondsIn(end ?? "");
      if (startS === null || endS === null || more.length > 0) {
        return failed(`“${part}” is no stretch: write 1:00 to 2:30.`);
      }
      if (endS <= startS) return failed(`“${part}” ends before it starts.`);
      read.push({ startS, endS });
    }
    return done(read);
  },
  form: "One a line, from touchdown: 1:00 to 2:30.",
};

function stretchesOf(value: unknown, to: string, between: string): string {
  const list = Array.isArray(value) ? (value as readonly Stretch[]) : [];
  return list.map(({ startS, endS }) => `${clock(startS)}${to}${clock(endS)}`).join(between);
}
