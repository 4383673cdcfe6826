import { z } from "zod";
import { id, label, metS } from "./fields.ts";

/** A task on the day line. The traverses between tasks follow from the order and are never stored. */
export const placementSchema = z.strictObject({
  task: id,
  eva: id.nullable().describe("The EVA; null for remote work without crew."),
  crew: z.array(id).max(4).describe("Who does it; empty for remote work."),
  startS: metS.describe("Start, seconds from touchdown."),
});

/** Who does what, on which EVA, when. Tasks that are not named are on the bench. */
export const scheduleSchema = z.strictObject({
  placements: z.array(placementSchema).max(5000).default([]).describe("The tasks that are placed."),
});

/** A named alternative schedule for the same plan. */
export const variantSchema = z.strictObject({
  id,
  name: label,
  schedule: scheduleSchema.describe("The alternative."),
});

export type Placement = z.infer<typeof placementSchema>;
export type Schedule = z.infer<typeof scheduleSchema>;
export type Variant = z.infer<typeof variantSchema>;
