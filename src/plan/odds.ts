import { z } from "zod";
import { note, share } from "./fields.ts";

/** What the planner wants of the day as it may go, how its crew acts when it runs late, and how lateness hangs together. */
export const oddsSchema = z
  .strictObject({
    wish: z
      .strictObject({
        home: share("Everybody home inside every limit: chance wanted.").default(0.99),
        must: share("Every must-do task done: chance wanted.").default(0.9),
      })
      .prefault({})
      .describe("The chances that a day is packed for."),
    crew: z
      .strictObject({
        acts: z
          .boolean()
          .default(true)
          .describe(
            "The crew goes ahead when ready, breaks off in time, leaves out optional work for must-do work and rests by the " +
              "rule; else it carries on regardless.",
          ),
        caution: share(
          "How long tasks are taken to be when optional work is left out for must-do work ahead: 0 likely, 1 high.",
        ).default(0.25),
      })
      .prefault({})
      .describe("How the crew acts on a day that does not go as planned."),
    lateness: z
      .strictObject({
        day: share("Part of the spread that the whole day has in common.").default(0.1),
        outing: share("Part of the spread that one crew member has in common on one EVA.").default(0.2),
        source: note.default("Project choice, no source.").describe("Where the parts come from."),
      })
      .refine(({ day, outing }) => day + outing <= 1, {
        message: "the parts of the day and of the EVA are together more than the whole",
      })
      .prefault({})
      .describe(
        "How durations and work rates hang together: parts of their spread (variance) held in common.",
      ),
  })
  .prefault({})
  .describe("The day as it may go.");

export type Odds = z.infer<typeof oddsSchema>;
