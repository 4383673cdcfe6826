import { type FieldGuide, guideTo, type Plan, usualOf, withAt } from "../../plan/index.ts";
import type { Cell, Column, Field } from "./table.ts";

/** What lists and sheets make their columns and cells from. */

/** A thing that may hold values which nobody has given. */
export interface Begun {
  readonly toGive?: readonly string[];
}

/** The plan's branch that holds `path`, with `value` there. */
export function branch(plan: Plan, path: string, value: unknown): Partial<Plan> {
  return branchOf(withAt(plan, path, value) as Plan, path);
}

/** The plan's branch that holds `path`. */
export function branchOf(plan: Plan, path: string): Partial<Plan> {
  const key = path.split(".")[0] as keyof Plan;
  return { [key]: plan[key] };
}

/** What the schema says of a field. */
export function guideOf<Row>(field: Field<Row>, path: string): FieldGuide {
  // A field that is only shown has no place in the schema.
  return field.read && !field.write ? UNGUIDED : guideTo(path);
}

const UNGUIDED: FieldGuide = {
  words: "",
  low: null,
  high: null,
  whole: false,
  optional: true,
  most: null,
};

/** What of a cell comes from its field alone. */
export function faceOf<Row>(
  field: Field<Row>,
  guide: FieldGuide,
  path: string,
): Pick<Cell, "entry" | "unit" | "hint" | "guide" | "usual" | "unknown"> {
  return {
    entry: field.entry,
    unit: field.unit ?? "",
    hint: field.hint ?? asWritten(guide.words, field.unit),
    guide,
    usual: usualOf(path),
    unknown: field.unknown,
  };
}

/** What the document's words say of its own units, where a column is written in others: times in seconds, shares from 0 to 1. */
const DOCUMENT_UNITS: Readonly<Record<string, RegExp>> = {
  "h:mm": /, s(?=[.:;])/,
  MET: /, seconds from touchdown/,
  "%": / ?Share, 0 to [\d.]+\./,
};

/** The document's words on a field, as they hold for what is written in its column. */
function asWritten(words: string, unit = ""): string {
  const own = DOCUMENT_UNITS[unit];
  return own ? words.replace(own, "") : words;
}

/** The column of a field. */
export function columnOf<Row>({
  label,
  unit = "",
  width,
  group = "",
  entry,
  heads = [],
}: Field<Row>): Column {
  return { label, unit, width, group, align: entry.align, heads };
}

/** First letter small, unless the word is an abbreviation. */
export function lowerFirst(words: string): string {
  return /^[A-Z][a-z ]/.test(words) ? words.charAt(0).toLowerCase() + words.slice(1) : words;
}
