import { z } from "zod";
import { planSchema } from "./plan.ts";
import { stepInto, unwrapped } from "./schemawalk.ts";

/**
 * `record`, which stands at `path` in a plan, with its fields in the order of the format, in which every file has them. A step
 * `#key` is an item of a list. Fields that the format does not know come last.
 */
export function inFieldOrder(
  path: readonly string[],
  record: Readonly<Record<string, unknown>>,
): Readonly<Record<string, unknown>> {
  const names = Object.keys(record);
  const order = fieldsAt(path, names);
  const rank = (name: string): number => (order.includes(name) ? order.indexOf(name) : order.length);
  return Object.fromEntries(
    names.toSorted((a, b) => rank(a) - rank(b)).map((name) => [name, record[name]] as const),
  );
}

/** The fields of the group at `path`; of several forms, those of the first that has all of `names`. */
function fieldsAt(path: readonly string[], names: readonly string[]): readonly string[] {
  let schema: z.core.$ZodType | null = planSchema;
  for (const step of path)
    schema = schema && stepInto(unwrapped(schema).schema, step.startsWith("#") ? "*" : step);
  const bare = schema && unwrapped(schema).schema;
  const forms = bare instanceof z.ZodUnion ? bare.options.map((one) => unwrapped(one).schema) : [bare];
  for (const form of forms) {
    if (!(form instanceof z.ZodObject)) continue;
    const fields = Object.keys(form.shape);
    if (names.every((name) => fields.includes(name))) return fields;
  }
  return [];
}
