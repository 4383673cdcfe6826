import { z } from "zod";
import { invariant } from "../kernel/index.ts";
import { planSchema } from "./plan.ts";

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

const WRAPPED = [z.ZodOptional, z.ZodDefault, z.ZodPrefault, z.ZodNullable] as const;

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

/** The schema under its wrappings, and what these say. */
function unwrapped(wrapped: z.core.$ZodType): { schema: z.core.$ZodType; optional: boolean; words: string } {
  let schema = wrapped;
  let optional = false;
  let words = "";
  for (;;) {
    if (words === "" && schema instanceof z.ZodType) words = schema.description ?? "";
    const wrapping = WRAPPED.find((one) => schema instanceof one);
    if (wrapping) {
      optional ||= wrapping !== z.ZodNullable;
      schema = (schema as z.ZodOptional).unwrap();
    } else if (schema instanceof z.ZodPipe) {
      schema = schema.in;
    } else {
      return { schema, optional, words };
    }
  }
}

function stepInto(schema: z.core.$ZodType, name: string): z.core.$ZodType | null {
  if (schema instanceof z.ZodObject) return (schema.shape[name] as z.core.$ZodType | undefined) ?? null;
  if (schema instanceof z.ZodArray) return name === "*" ? schema.element : null;
  if (schema instanceof z.ZodTuple)
    return (schema.def.items[Number(name)] as z.core.$ZodType | undefined) ?? null;
  if (schema instanceof z.ZodUnion) {
    for (const option of schema.options) {
      const inner = stepInto(unwrapped(option).schema, name);
      if (inner) return inner;
    }
  }
  return null;
}
