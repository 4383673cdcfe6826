import { z } from "zod";

const WRAPPED = [z.ZodOptional, z.ZodDefault, z.ZodPrefault, z.ZodNullable] as const;

/** The schema under its wrappings, and what these say. */
export function unwrapped(wrapped: z.core.$ZodType): {
  schema: z.core.$ZodType;
  optional: boolean;
  words: string;
} {
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

/** The schema of what is called `name` in `schema`, `*` for any entry of a list; of several forms the first that has it; null when none has. */
export function stepInto(schema: z.core.$ZodType, name: string): z.core.$ZodType | null {
  if (schema instanceof z.ZodObject) return (schema.shape[name] as z.core.$ZodType | undefined) ?? null;
  if (schema instanceof z.ZodArray) return name === "*" ? schema.element : null;
  if (schema instanceof z.ZodTuple) return schema.def.items[Number(name)] ?? null;
  if (schema instanceof z.ZodUnion) {
    for (const option of schema.options) {
      const inner = stepInto(unwrapped(option).schema, name);
      if (inner) return inner;
    }
  }
  return null;
}
