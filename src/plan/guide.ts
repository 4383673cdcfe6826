import { z } from "zod";
import { invariant } from "../kernel/index.ts";
import { planSchema } from "./plan.ts";
import { stepInto, unwrapped } from "./schemawalk.ts";

/** What the schema says of one field, for those who show or ask for it. */
export interface FieldGuide {
  /** The schema's words on it; empty when it has none. */
  readonly words: string;
  /** Least and greatest number allowed; null where there is no bound. */
  readonly low: number | null;
  readonly high: number | null;
  /** True when only whole numbers are allowed. */
  readonly whole: boolean;
  /** True when it may be left out: then it is absent or has its default. */
  readonly optional: boolean;
  /** Most entries of a list; null where there is no bound or it is no list. */
  readonly most: number | null;
}

/**
 * The guide to the field at `path`, with `*` for any entry of a list: "crew.*.bodyMassKg". Where a field is one of
 * several forms, the first form that has the name counts. Throws InvariantError when there is no such field.
 */
export function guideTo(path: string): FieldGuide {
  let schema: z.core.$ZodType = planSchema;
  for (const name of path.split(".")) {
    const inner = stepInto(unwrapped(schema).schema, name);
    invariant(inner !== null, `the plan has no field "${path}": nothing is called "${name}" there`);
    schema = inner;
  }
  const { schema: bare, optional, words } = unwrapped(schema);
  const number = bare instanceof z.ZodNumber ? bare : null;
  const checks = bare instanceof z.ZodArray ? (bare.def.checks ?? []) : [];
  const most = checks
    .map((check) => check._zod.def)
    .find((def): def is z.core.$ZodCheckMaxLengthDef => def.check === "max_length");
  return {
    words,
    low: bound(number?.minValue),
    high: bound(number?.maxValue),
    whole: number?.format === "safeint",
    optional,
    most: most?.maximum ?? null,
  };
}

function bound(value: number | null | undefined): number | null {
  return value === undefined || value === null || !Number.isFinite(value) ? null : value;
}
