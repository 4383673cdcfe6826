import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { FieldGuide, Plan } from "../../plan/index.ts";

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

/** Short texts, one a line. */
export const lines: Entry = {
  editor: "area",
  align: "start",
  show: (value) => listOf(value).join(" · "),
  draft: (value) => listOf(value).join("\n"),
  read: (draft) => done(partsOf(draft, /\n/)),
  form: "One a line.",
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

/** Numbers as they stand; up to twelve digits, so that no binary remainder shows. */
export function digits(value: number): string {
  return String(Number(value.toPrecision(12))).replace("-", "−");
}

/** As `digits`, with thin groups of three before the point. */
function grouped(value: number): string {
  const [whole = "", ...rest] = digits(value).split(".");
  return [whole.replace(/\B(?=(\d{3})+$)/g, "\u202f"), ...rest].join(".");
}

/** A number from people: comma or point for decimals, either minus sign; null when it is none. */
export function numberIn(draft: string): number | null {
  const plain = draft.trim().replace("−", "-").replace(",", ".").replace(/\s/g, "");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

/** A number with the unit that the column names. `scale` is document units a shown unit. */
export function quantity(unit: string, scale = 1): Entry {
  return {
    editor: "line",
    align: "end",
    show: (value) => (typeof value === "number" ? grouped(value / scale) : ""),
    draft: (value) => (typeof value === "number" ? digits(value / scale) : ""),
    read(draft, _plan, guide) {
      const bare = unit !== "" && draft.trim().endsWith(unit) ? draft.trim().slice(0, -unit.length) : draft;
      if (bare.trim() === "") return emptyRead(guide);
      const given = numberIn(bare);
      if (given === null) return failed(`Write a number${unit === "" ? "" : ` (${unit})`}.`);
      const value = Number((given * scale).toPrecision(12));
      return bounded(value, guide, (bound) => `${digits(bound / scale)}${unit === "" ? "" : ` ${unit}`}`);
    },
  };
}

/** `value`, unless the guide's bounds are passed; `words` says a bound. */
export function bounded(
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
