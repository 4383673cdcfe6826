import { z } from "zod";
import { line } from "./fields.ts";

/** What the crew reads on paper and does: steps, and what is said to them before a step. */

export const cautionSchema = z.strictObject({
  class: z
    .enum(["warning", "caution", "note"])
    .optional()
    .describe(
      "warning: may injure or kill. caution: may lose equipment or data. note: a condition to know. Without it nobody has said which.",
    ),
  text: line.describe("The hazard first, then what to do about it."),
});

/** A line to be written on: a reading with its unit, a mass in kg, or the number of a photograph. */
const blankSchema = z.strictObject({
  of: z.enum(["reading", "mass", "photo"]).describe("What is written down."),
  unit: z.string().trim().max(12).default("").describe("Unit of a reading; empty for none."),
});

const stepSchema = z.strictObject({
  when: line.optional().describe("IF: what is seen or read. The step is done only then."),
  text: line.describe("What to do: one action."),
  by: z
    .int()
    .min(1)
    .max(4)
    .optional()
    .describe(
      "Whose step it is: 1 is the first of those who take part, in the order of the plan's crew. Without it, or where fewer take part, it is everybody's.",
    ),
  blank: blankSchema.optional().describe("What is written down with it."),
  cautions: z
    .array(cautionSchema)
    .max(5)
    .default([])
    .describe("What is read before it: they guard this step."),
});

export const stepsSchema = z.array(stepSchema).max(60);

/** What the crew does at the lander and when something goes wrong, the same on every EVA. */
export const proceduresSchema = z.strictObject({
  egress: stepsSchema.default([]).describe("Steps of the egress."),
  ingress: stepsSchema.default([]).describe("Steps of the ingress."),
  emergency: stepsSchema
    .default([])
    .describe(
      "Emergency: first what is done whatever happened, then by cause: IF the cause THEN what is done.",
    ),
  authority: line
    .optional()
    .describe("Who answers for these texts. Without it they are the planner's own, to be replaced."),
});

export type Caution = z.infer<typeof cautionSchema>;
export type Step = z.infer<typeof stepSchema>;
export type Blank = z.infer<typeof blankSchema>;

/** The class that a caution is set in: one that nobody has classed is a caution, never a warning that nobody has called. */
export function classOf(caution: Caution): NonNullable<Caution["class"]> {
  return caution.class ?? "caution";
}

/** All cautions of a task: those of the whole task first, then those of its steps in their order. */
export function allCautions({
  cautions,
  steps,
}: {
  readonly cautions: readonly Caution[];
  readonly steps: readonly Step[];
}): readonly Caution[] {
  return [...cautions, ...steps.flatMap((step) => step.cautions)];
}

/**
 * Whose a step is, of those who take part: one of them, or all. `crew` are their ids in any order, `order` is the plan's crew.
 * A step for one more than take part is everybody's: it is never nobody's.
 */
export function stepCrew(
  step: Pick<Step, "by">,
  crew: readonly string[],
  order: readonly { readonly id: string }[],
): readonly string[] {
  const inOrder = order.map(({ id }) => id).filter((id) => crew.includes(id));
  const one = step.by === undefined ? undefined : inOrder[step.by - 1];
  return one === undefined ? inOrder : [one];
}
