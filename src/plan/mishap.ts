import { z } from "zod";
import { id, label, share, spanS } from "./fields.ts";
import { stepsSchema } from "./step.ts";

/** Something that may go wrong with a task, or with each use of a piece of equipment, on a simulated day. The likely day has none of it. */
export const mishapSchema = z.strictObject({
  what: label.describe("What happens: does not switch on, jams."),
  chance: share("Chance each time."),
  extraS: spanS.optional().describe("The task then takes so much longer, s; without it no longer."),
  spoils: z
    .boolean()
    .optional()
    .describe("The task is then not done: its worth is lost, and what needs it is not done either."),
});

/** Work that is done only if something has gone wrong: no placement, no time on the planned day. */
const remedySchema = z.strictObject({
  name: label.describe("What is done then: switch on by hand."),
  after: id
    .optional()
    .describe("The task at whose end its crew does it, where they then are; without it the task itself."),
  duration: z
    .strictObject({
      likelyS: spanS.describe("Most likely duration, s."),
      lowS: spanS.optional().describe("Short case, s."),
      highS: spanS.optional().describe("Long case, s."),
    })
    .describe("How much longer that task then takes: low <= likely <= high."),
  steps: stepsSchema.default([]).describe("Its steps, printed under IF on the cuff page of that task."),
});

/** What may go wrong with a task, and what then makes it good. */
export const taskMishapSchema = mishapSchema.extend({
  remedy: remedySchema
    .optional()
    .describe(
      "Done only if it has happened; once it is done nothing is lost. Costs nothing on the planned day.",
    ),
});

export type Mishap = z.infer<typeof mishapSchema>;
export type Remedy = z.infer<typeof remedySchema>;
