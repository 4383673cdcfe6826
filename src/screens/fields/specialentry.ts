import { done, failed } from "../../kernel/index.ts";
import { bare, digits } from "../../words/index.ts";
import { type Choice, emptyRead, type Entry, numberIn, partsOf, quantity } from "./entry.ts";

/** Entries that only one field has. */

const EFFORTS: readonly Choice[] = [
  { value: "egress-ingress", words: "Egress and ingress" },
  { value: "deployment", words: "Deployment" },
  { value: "geology", words: "Geology" },
  { value: "riding", words: "Riding" },
  { value: "overall", words: "Overall mean" },
  { value: "rest", words: "Rest" },
];

/** Degrees with minutes, and seconds: `41°49'48"`, `41° 49.8′`. */
const SEXAGESIMAL =
  /^([+−-]?)(\d+)\s*°\s*(\d+(?:[.,]\d+)?)\s*['’′]\s*(?:(\d+(?:[.,]\d+)?)\s*(?:["”″]|''|′′))?$/;

/** In a degree. */
const ARCSECONDS = 3600;

/** Degrees as a decimal number where they are written with minutes; any other text as it is. Null where no such minutes or seconds are. */
function decimalDegrees(draft: string): string | null {
  const [, sign, degrees, minutes = "", seconds = "0"] = SEXAGESIMAL.exec(draft.trim()) ?? [];
  if (degrees === undefined) return draft;
  const [m, s] = [Number(minutes.replace(",", ".")), Number(seconds.replace(",", "."))];
  if (m >= 60 || s >= 60) return null;
  const arcseconds = Number(degrees) * ARCSECONDS + m * 60 + s;
  return `${sign}${Number((arcseconds / ARCSECONDS).toFixed(9))}`;
}

/**
 * Degrees to either side of a great circle: a number, or one with the letter of its side, `72.5 S`; with minutes and seconds too,
 * `41°49'48" S`.
 */
export function sided(plus: "N" | "E", minus: "S" | "W"): Entry {
  const degrees = quantity("°");
  return {
    ...degrees,
    read(draft, plan, guide) {
      const [, number = "", letter] = /^(.*\S)\s*([a-z])$/i.exec(draft.trim()) ?? [];
      const side = letter?.toUpperCase();
      const isSided = side === plus || side === minus;
      if (isSided && /^[+−-]/.test(number)) return failed(`Write a sign or ${side}, not both.`);
      const decimal = decimalDegrees(isSided ? number : draft);
      if (decimal === null) return failed("Minutes and seconds of arc are less than 60.");
      return degrees.read(side === minus ? `-${decimal}` : decimal, plan, guide);
    },
  };
}

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
