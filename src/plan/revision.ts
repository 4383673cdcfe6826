import { z } from "zod";
import { note } from "./fields.ts";

/** What its author calls a state of the plan; the fingerprint tells two states apart whatever they are called. */
export const revisionSchema = z.strictObject({
  name: z
    .string()
    .trim()
    .min(1, "must not be empty")
    .max(24)
    .optional()
    .describe('What this state is called: "Rev 3"; without it it has no name.'),
  note: note.default("").describe("What its author says of it: what changed, and for whom."),
});
