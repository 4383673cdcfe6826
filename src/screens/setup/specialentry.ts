import { done, failed } from "../../kernel/index.ts";
import { bare, digits } from "../../words/index.ts";
import { type Choice, emptyRead, type Entry, numberIn, partsOf, quantity, text } from "./entry.ts";

/** Entries that only one field has. */

export const EFFORTS: readonly Choice[] = [
  { value: "egress-ingress", words: "Egress and ingress" },
  { value: "deployment", words: "Deployment" },
  { value: "geology", words: "Geology" },
  { value: "riding", words: "Riding" },
  { value: "overall", words: "Overall mean" },
  { value: "rest", words: "Rest" },
];

/** Degrees to either side of a great circle: a number, or one with the letter of its side, `72.5 S`. */
export function sided(plus: "N" | "E", minus: "S" | "W"): Entry {
  const degrees = quantity("°");
  return {
    ...degrees,
    read(draft, plan, guide) {
      const [, number = "", letter] = /^(.*\S)\s*([a-z])$/i.exec(draft.trim()) ?? [];
      const side = letter?.toUpperCase();
      if (side !== plus && side !== minus) return degrees.read(draft, plan, guide);
      if (/^[+−-]/.test(number)) return failed(`Write a sign or ${side}, not both.`);
      return degrees.read(side === minus ? `-${number}` : number, plan, guide);
    },
  };
}

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/** Year, month and day as people write them; null when it is none, words where it may be two. */
function dateIn(text: string): readonly [year: string, month: number, day: number] | string | null {
  const [, y, m, d] = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text) ?? [];
  if (y) return [y, Number(m), Number(d)];
  const month = (word: string): number => MONTHS.indexOf(word.slice(0, 3).toLowerCase()) + 1;
  const [, day1, word1, year1] = /^(\d{1,2})\.?[\s-]+([a-z]{3,9})\.?,?[\s-]+(\d{4})$/i.exec(text) ?? [];
  if (year1 && word1 && month(word1) > 0) return [year1, month(word1), Number(day1)];
  const [, word2, day2, year2] = /^([a-z]{3,9})\.?\s+(\d{1,2}),?\s+(\d{4})$/i.exec(text) ?? [];
  if (year2 && word2 && month(word2) > 0) return [year2, month(word2), Number(day2)];
  const [, a, b, year3] = /^(\d{1,2})[./-](\d{1,2})[./-](\d{4})$/.exec(text) ?? [];
  if (!year3) return null;
  const [one, other] = [Number(a), Number(b)];
  // With points the day leads; with strokes it may be either, unless one of them is no month.
  if (text.includes(".") || one > 12 || one === other) return [year3, other, one];
  if (other > 12) return [year3, one, other];
  const iso = (mm: number, dd: number): string => `${year3}-${two(mm)}-${two(dd)}`;
  return `It may be ${iso(one, other)} or ${iso(other, one)}: write the one that is meant.`;
}

const two = (value: number): string => String(value).padStart(2, "0");

/** A moment in UTC as the document holds it; `2031-04-05 06:07` and `5 Apr 2031 6:07` are read as well. */
export const utc: Entry = {
  ...text,
  read(draft, plan, guide) {
    const written = /^(.+?\d)[T,\s]+(\d{1,2}):(\d\d)(:\d\d)?\s*(?:Z|UTC)?$/i.exec(draft.trim());
    if (!written) return text.read(draft.trim(), plan, guide);
    const [, date = "", hours, minutes, seconds = ":00"] = written;
    const read = dateIn(date.trim());
    if (typeof read === "string") return failed(read);
    if (read === null) return text.read(draft.trim(), plan, guide);
    const [year, month, day] = read;
    return done(`${year}-${two(month)}-${two(day)}T${two(Number(hours))}:${minutes}${seconds}Z`);
  },
  form: "2031-04-05 06:07, or 5 Apr 2031 6:07.",
};

/** Effort: a published category of measured rates, or watts. */
export const effort: Entry = {
  editor: "line",
  align: "start",
  show: effortInWords,
  draft: effortInWords,
  read(draft, _plan, guide) {
    const plain = draft.trim().toLowerCase();
    if (plain === "") return emptyRead(guide);
    const category = EFFORTS.find((one) => one.words.toLowerCase() === plain || one.value === plain);
    if (category) return done(category.value);
    const watts = numberIn(plain.replace(/\s*w(atts?)?$/, ""));
    if (watts === null) {
      return failed(`Write watts, or one of: ${EFFORTS.map((one) => one.words.toLowerCase()).join(", ")}.`);
    }
    return watts < 50 || watts > 1500 ? failed("From 50 W to 1500 W.") : done({ watts });
  },
  choices: () => EFFORTS,
  form: "A category, or watts: geology, 350 W.",
};

function effortInWords(value: unknown): string {
  if (typeof value === "string") return EFFORTS.find((one) => one.value === value)?.words ?? value;
  const watts = (value as { watts?: unknown } | undefined)?.watts;
  return typeof watts === "number" ? `${digits(watts)} W` : "";
}

/** A range of sun elevation, `5 to 15`; empty for any. */
export const sunRange: Entry = {
  editor: "line",
  align: "end",
  show: (value) => sunInWords(value, "–"),
  draft: (value) => sunInWords(value, " to "),
  read(draft, _plan, guide) {
    if (draft.trim() === "") return emptyRead(guide);
    const parts = draft.split(/\s*(?:to|–|\.\.)\s*/).map(numberIn);
    const [leastDeg = null, greatestDeg = null] = parts;
    if (parts.length !== 2 || leastDeg === null || greatestDeg === null) {
      return failed("Write least and greatest elevation: 5 to 15.");
    }
    if (Math.min(leastDeg, greatestDeg) < -90 || Math.max(leastDeg, greatestDeg) > 90) {
      return failed("From −90 to 90 degrees.");
    }
    return greatestDeg > leastDeg
      ? done({ leastDeg, greatestDeg })
      : failed("The second must be the greater.");
  },
  form: "Least to greatest, degrees: 5 to 15.",
};

/** Sun angle of a task, and where its crew faces: "135 to 180 facing 90". */
export const sunAngle: Entry = {
  editor: "line",
  align: "end",
  show: (value) => angleInWords(value, "–"),
  draft: (value) => angleInWords(value, " to "),
  read(draft, _plan, guide) {
    if (draft.trim() === "") return emptyRead(guide);
    const [range = "", facing] = draft.split(/\s*facing\s*/);
    const parts = range.split(/\s*(?:to|–|\.\.)\s*/).map(numberIn);
    const [leastDeg = null, greatestDeg = null] = parts;
    const facingDeg = facing === undefined ? undefined : numberIn(facing);
    if (parts.length !== 2 || leastDeg === null || greatestDeg === null || facingDeg === null) {
      return failed("Write least and greatest angle: 135 to 180, or 135 to 180 facing 90.");
    }
    if (Math.min(leastDeg, greatestDeg) < 0 || Math.max(leastDeg, greatestDeg) > 180) {
      return failed("From 0 to 180 degrees.");
    }
    if (facingDeg !== undefined && (facingDeg < 0 || facingDeg > 360)) {
      return failed("Facing from 0 to 360 degrees.");
    }
    return greatestDeg > leastDeg
      ? done({ leastDeg, greatestDeg, ...(facingDeg === undefined ? {} : { facingDeg }) })
      : failed("The second must be the greater.");
  },
  form: "Least to greatest, degrees, and where the crew faces: 135 to 180 facing 90.",
};

function angleInWords(value: unknown, to: string): string {
  const facingDeg = (value as { facingDeg?: number } | undefined)?.facingDeg;
  return `${sunInWords(value, to)}${facingDeg === undefined ? "" : ` facing ${bare(facingDeg)}`}`;
}

function sunInWords(value: unknown, to: string): string {
  const range = value as { leastDeg: number; greatestDeg: number } | undefined;
  return range ? `${bare(range.leastDeg)}${to}${bare(range.greatestDeg)}` : "";
}

interface Corner {
  readonly eastM: number;
  readonly northM: number;
}

/** Corners of a polygon, one a line: `east north` in metres. */
export const corners: Entry = {
  editor: "area",
  align: "start",
  show: (value) => (value === undefined ? "" : `${cornersOf(value).length} corners`),
  draft: (value) =>
    cornersOf(value)
      .map((one) => `${bare(one.eastM)} ${bare(one.northM)}`)
      .join("\n"),
  read(draft) {
    const read: Corner[] = [];
    for (const part of partsOf(draft, /[\n;]/)) {
      const [eastM = null, northM = null, ...more] = part.split(/\s+/).map(numberIn);
      if (eastM === null || northM === null || more.length > 0) {
        return failed(`“${part}” is no corner: write metres east, then north.`);
      }
      read.push({ eastM, northM });
    }
    return read.length < 3 ? failed("At least three corners.") : done(read);
  },
  form: "One corner a line: metres east, then metres north.",
};

function cornersOf(value: unknown): readonly Corner[] {
  return Array.isArray(value) ? (value as readonly Corner[]) : [];
}
