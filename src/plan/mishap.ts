import { z } from "zod";
import { label, share, spanS } from "./fields.ts";

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

export type Mishap = z.infer<typeof mishapSchema>;
