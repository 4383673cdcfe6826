import { z } from "zod";
import { planSchema } from "./plan.ts";

/** A JSON Schema as plain data. */
export type JsonSchema = Readonly<Record<string, unknown>>;

/**
 * The JSON Schema (draft 2020-12) of a plan as it may stand in a file: what has a default may be left out. Made
 * from the same zod schema that `parse` uses. What no JSON Schema can say, `parse` adds: ids that name something
 * and are used once, ends after starts, least lags below greatest.
 */
export function planJsonSchema(): JsonSchema {
  const { $schema, description, ...rest } = z.toJSONSchema(planSchema, {
    io: "input",
    target: "draft-2020-12",
  });
  return { $schema, $id: "lopeline-plan.schema.json", title: "Lopeline plan", description, ...rest };
}
