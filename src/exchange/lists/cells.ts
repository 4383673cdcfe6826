import { clock } from "../../words/index.ts";
import { walkXml } from "./xml.ts";

/** Cells of a workbook as the texts that a reader of the sheet sees, as far as a list needs them. */

/** A cell as the file has it. */
export interface RawCell {
  /** "s": place in the shared texts; "b": 0 or 1; "str", "inlineStr", "e": text; else a number. */
  readonly type: string;
  readonly style: number;
  readonly value: string;
}

/** What a style says of a number: a time of day or a length of time, a day of the calendar, or nothing. */
type Shown = "time" | "day" | "number";

/** Formats of a date or time that no file needs to define (ECMA-376, 18.8.30). */
const BUILT_IN: Readonly<Record<number, Shown>> = {
  14: "day",
  15: "day",
  16: "day",
  17: "day",
  18: "time",
  19: "time",
  20: "time",
  21: "time",
  22: "day",
  45: "time",
  46: "time",
  47: "time",
};

/** What every style of the workbook shows of a number, in order. */
export function stylesIn(xml: string): readonly Shown[] {
  const own = new Map<number, Shown>();
  const styles: Shown[] = [];
  let inCells = false;
  walkXml(xml, {
    open(name, attributes) {
      if (name === "numFmt") own.set(Number(attributes["numFmtId"]), shownBy(attributes["formatCode"] ?? ""));
      if (name === "cellXfs") inCells = true;
      if (name === "xf" && inCells) {
        const id = Number(attributes["numFmtId"] ?? 0);
        styles.push(own.get(id) ?? BUILT_IN[id] ?? "number");
      }
    },
    close(name) {
      if (name === "cellXfs") inCells = false;
    },
  });
  return styles;
}

function shownBy(format: string): Shown {
  // Texts in quotes, escaped signs, colours and places are no part of the pattern; hours in brackets are.
  const pattern = format
    .replace(/"[^"]*"|\\./g, "")
    .replace(/\[(?![hms]+\])[^\]]*\]/gi, "")
    .toLowerCase();
  if (/[dy]/.test(pattern)) return "day";
  return /[hs]/.test(pattern) ? "time" : "number";
}

const DAY_S = 86_400;
/** Day 0 of the usual count of days, ms since 1970. */
const DAY_ZERO_MS = Date.UTC(1899, 11, 30);

/** A cell's text: times as h:mm, with seconds where there are any; days as year-month-day. */
export function cellText({ type, style, value }: RawCell, styles: readonly Shown[]): string {
  if (type === "b") return value === "1" ? "yes" : "no";
  if (type !== "n" || value === "") return value;
  const number = Number(value);
  if (!Number.isFinite(number)) return value;
  const shown = styles[style] ?? "number";
  if (shown === "time" && number >= 0) return clock(Math.round(number * DAY_S));
  const days = new Date(DAY_ZERO_MS + Math.round(number * DAY_S) * 1000);
  if (shown === "day" && !Number.isNaN(days.getTime()))
    return days
      .toISOString()
      .replace("T00:00:00.000Z", "")
      .replace(/:00\.000Z$/, "")
      .replace("T", " ");
  // Binary remainders are no part of what was written.
  return String(Number(number.toPrecision(12)));
}
