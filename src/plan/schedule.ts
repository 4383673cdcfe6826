import { z } from "zod";
import { id, label, metS, note } from "./fields.ts";
import { patchSchema } from "./patch/schema.ts";

/** A task on the day line. The traverses between tasks follow from the order and are never stored. */
const placementSchema = z.strictObject({
  task: id,
  eva: id.nullable().describe("The EVA; null for remote work without crew."),
  crew: z.array(id).max(4).describe("Who does it; empty for remote work."),
  startS: metS.describe("Start, seconds from touchdown."),
});

/** Who does what, on which EVA, when. Tasks that are not named are on the bench. */
export const scheduleSchema = z.strictObject({
  placements: z.array(placementSchema).max(5000).default([]).describe("The tasks that are placed."),
});

/** What an alternative gives up of the plan, beside its schedule: a longer EVA, another window. */
const givesUpSchema = z.strictObject({
  sentence: note.describe("What is given up, in words."),
  owner: label.nullable().default(null).describe("Who has to agree; null where the planner decides."),
  patch: patchSchema,
});

/** A named alternative schedule for the same plan. */
export const variantSchema = z.strictObject({
  id,
  name: label,
  schedule: scheduleSchema.describe("The alternative."),
  givesUp: givesUpSchema.optional().describe("What it changes of the plan beside, where it does."),
});

export type Placement = z.infer<typeof placementSchema>;
export type Schedule = z.infer<typeof scheduleSchema>;
/** What a variant changes of the plan beside its schedule, in words and as a patch. */
export type GivesUp = z.infer<typeof givesUpSchema>;
