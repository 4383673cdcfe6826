import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { FieldGuide, Plan } from "../../plan/index.ts";
import { bare, digits, ungrouped, unitNamed } from "../../words/index.ts";

/** What an editor offers to choose from. */
export interface Choice {
  readonly value: string;
  readonly words: string;
}

/** How a cell is edited: a line of text, lines of text, one of a list, some of a list, or yes and no. */
export type Editor = "line" | "area" | "one" | "some" | "tick";

/**
 * How one sort of value is read and written by people. `show` is what stands in the cell, `draft` what stands in its
 * editor, `read` makes a value of a draft or says in words why it cannot.
 */
export interface Entry {
  readonly editor: Editor;
  readonly align: "start" | "end";
  show(value: unknown, plan: Plan): string;
  draft(value: unknown, plan: Plan): string;
  read(draft: string, plan: Plan, guide: FieldGuide): Outcome<unknown, string>;
  choices?(plan: Plan): readonly Choice[];
  /** True for lines of the crew's paper, each of which should stand on one line of it. */
  readonly onPaper?: "cautions" | "steps";
  /** How to write it, when that needs saying. */
  readonly form?: string;
}

/** Nothing was written: absent where that is allowed. */
export function emptyRead(guide: FieldGuide): Outcome<unknown, string> {
  return guide.optional ? done(undefined) : failed("Must not be empty.");
}

const textOf = (value: unknown): string => (typeof value === "string" ? value : "");

/** A short text in one line. */
export const text: Entry = {
  editor: "line",
  align: "start",
  show: textOf,
  draft: textOf,
  read: (draft, _plan, guide) => (draft.trim() === "" ? emptyRead(guide) : done(draft)),
};

/** A longer text, possibly empty. */
export const longText: Entry = {
  editor: "area",
  align: "start",
  show: textOf,
  draft: textOf,
  read: (draft) => done(draft),
};

/** Names for qualifications, with commas. */
export const tags: Entry = {
  editor: "line",
  align: "start",
  show: (value) => listOf(value).join(", "),
  draft: (value) => listOf(value).join(", "),
  read: (draft) => done(partsOf(draft, /[,\s]+/)),
  form: "With commas between.",
};

/** One qualification name or none. */
export const tag: Entry = {
  ...text,
  read: (draft, _plan, guide) => (draft.trim() === "" ? emptyRead(guide) : done(draft.trim())),
};

const GROUPED = /^[+-]?[1-9]\d{0,2}(,\d{3})+(\.\d*)?$/;
/** One comma or point before three digits: groups of a thousand to some, decimals to others. */
const EITHER = /^[+-]?[1-9]\d{0,2}[,.]\d{3}$/;
/** Points between thousands, with a comma for decimals or with two points at least. */
const POINTED = /^[+-]?[1-9]\d{0,2}(\.\d{3})+,\d*$|^[+-]?[1-9]\d{0,2}(\.\d{3}){2,}$/;

/**
 * A number from people: comma or point for decimals; commas, points, spaces or apostrophes between thousands; either minus sign. Null
 * when it is none, or when one comma or point may be either.
 */
export function numberIn(draft: string): number | null {
  const given = ungrouped(draft);
  if (EITHER.test(given)) return null;
  const plain = GROUPED.test(given)
    ? given.replaceAll(",", "")
    : POINTED.test(given)
      ? given.replaceAll(".", "").replace(",", ".")
      : given.replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

/**
 * A number that may be meant with groups or with decimals, as the one of both that the bounds allow; null where both are allowed or
 * it is none such. `units` are units of the document in a written one.
 */
function eitherIn(draft: string, guide: FieldGuide, units: number): number | null {
  const given = ungrouped(draft);
  if (!EITHER.test(given)) return null;
  const fits = [Number(given.replace(/[,.]/, "")), Number(given.replace(",", "."))].filter(
    (one) => one * units >= (guide.low ?? -Infinity) && one * units <= (guide.high ?? Infinity),
  );
  return fits.length === 1 ? (fits[0] ?? null) : null;
}

/** Why a text is no number of `unit`. */
function noNumber(draft: string, unit: string): string {
  const given = ungrouped(draft);
  if (!EITHER.test(given)) return `Write a number${unit === "" ? "" : ` (${unit})`}.`;
  const [whole, decimal] = [given.replace(/[,.]/, ""), Number(given.replace(",", "."))];
  const written = /\.\d{3}$/.test(String(decimal)) ? `${decimal}0` : String(decimal);
  return `It may be ${whole} or ${decimal}: write ${whole} or ${written}.`;
}

/** What else a quantity may be written in, units of the column for each. */
const OTHER_UNITS: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  m: { km: 1000 },
  kg: { g: 0.001 },
  L: { ml: 0.001 },
  W: { kw: 1000 },
  Wh: { kwh: 1000 },
  "m/s": { "km/h": 1 / 3.6 },
};

/** A written quantity without its unit, and how many units of the column that unit is. */
function unitless(draft: string, unit: string): { readonly bare: string; readonly factor: number } {
  const [, bare = "", written = ""] = /^(.*[\d.])\s*([^\d\s.,].*)$/s.exec(draft.trim()) ?? [];
  const named = unitNamed(written.trim());
  const factor = named === unit ? 1 : OTHER_UNITS[unit]?.[named.toLowerCase()];
  return factor === undefined || written === "" ? { bare: draft, factor: 1 } : { bare, factor };
}

/** A number as it is edited: one that would be asked about has a nought more. */
function withNought(text: string): string {
  return EITHER.test(ungrouped(text)) ? `${text}0` : text;
}

/** A number with the unit that the column names. `scale` is document units a shown unit. */
export function quantity(unit: string, scale = 1): Entry {
  return {
    editor: "line",
    align: "end",
    show: (value) => (typeof value === "number" ? digits(value / scale) : ""),
    draft: (value) => (typeof value === "number" ? withNought(bare(value / scale)) : ""),
    read(draft, _plan, guide) {
      const { bare: number, factor } = unitless(draft, unit);
      if (number.trim() === "" || number.trim() === unit) return emptyRead(guide);
      const given = eitherIn(number, guide, factor * scale) ?? numberIn(number);
      if (given === null) return failed(noNumber(number, unit));
      const value = Number((given * factor * scale).toPrecision(12));
      return bounded(value, guide, (bound) => `${bare(bound / scale)}${unit === "" ? "" : ` ${unit}`}`);
    },
  };
}

/** `value`, unless the guide's bounds are passed; `words` says a bound. */
function bounded(
  value: number,
  guide: FieldGuide,
  words: (bound: number) => string,
): Outcome<unknown, string> {
  if (guide.low !== null && value < guide.low) return failed(`At least ${words(guide.low)}.`);
  if (guide.high !== null && value > guide.high) return failed(`At most ${words(guide.high)}.`);
  if (guide.whole && !Number.isInteger(value)) return failed("Must be a whole number.");
  return done(value);
}

/** A share, written in percent. */
export const percent: Entry = quantity("%", 0.01);

/** Yes or no. */
export const tick: Entry = {
  editor: "tick",
  align: "start",
  show: (value) => (value === true ? "yes" : "no"),
  draft: (value) => (value === true ? "yes" : ""),
  read: (draft) => done(draft === "yes"),
};

/** Yes, no, or nobody has said. */
export const perhaps: Entry = {
  editor: "one",
  align: "start",
  show: (value) => (value === undefined ? "not given" : value === true ? "yes" : "no"),
  draft: (value) => (value === undefined ? "" : value === true ? "yes" : "no"),
  read: (draft) => done(draft === "" ? undefined : draft === "yes"),
  choices: () => [
    { value: "", words: "not given" },
    { value: "yes", words: "yes" },
    { value: "no", words: "no" },
  ],
};

/** One of a few fixed words. */
export function choice(choices: readonly Choice[]): Entry {
  return {
    editor: "one",
    align: "start",
    show: (value) => choices.find((one) => one.value === value)?.words ?? "",
    draft: textOf,
    read: (draft) =>
      choices.some((one) => one.value === draft) ? done(draft) : failed("Choose one of the list."),
    choices: () => choices,
  };
}

export function listOf(value: unknown): readonly string[] {
  return Array.isArray(value) ? value.filter((one): one is string => typeof one === "string") : [];
}

export function partsOf(draft: string, between: RegExp): string[] {
  return draft
    .split(between)
    .map((part) => part.trim())
    .filter((part) => part !== "");
}

/** True for texts of more than one cell. */
export function isBlock(rows: readonly (readonly string[])[]): boolean {
  return rows.length > 1 || (rows[0]?.length ?? 0) > 1;
}
