import { z } from "zod";
import { id, label } from "./fields.ts";

const MOST_MEMBERS = 2000;

/** Tasks that are wanted together: at most or at least so many of them, or each further one for less. */
export const groupSchema = z
  .strictObject({
    id,
    name: label,
    tasks: z.array(id).max(MOST_MEMBERS).default([]).describe("The tasks of the group."),
    least: z
      .int()
      .min(0)
      .max(MOST_MEMBERS)
      .default(0)
      .describe("At least so many of them must be done in the stay."),
    most: z
      .int()
      .min(0)
      .max(MOST_MEMBERS)
      .optional()
      .describe("At most so many of them are done in the stay; without it any number."),
    shares: z
      .array(z.int().min(0).max(100))
      .max(20)
      .default([])
      .describe(
        "What the first, second, ... of those done counts of its worth, %, the most worth first; all beyond count the last. None: each counts whole.",
      ),
  })
  .describe("A group of tasks.");

export type Group = z.infer<typeof groupSchema>;
