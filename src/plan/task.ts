import { z } from "zod";
import { id, lagS, label, metS, note, ranged, spanS, shortName } from "./fields.ts";
import { taskMishapSchema } from "./mishap.ts";
import { cautionSchema, stepsSchema } from "./step.ts";
import { toGiveField } from "./togive.ts";

/** How hard the work is: a published category of measured rates, or watts. */
const effortSchema = z.union([
  z
    .enum(["egress-ingress", "deployment", "geology", "riding", "overall", "rest"])
    .describe("A category of measured rates."),
  z.strictObject({ watts: ranged(50, 1500, "Metabolic rate, W.") }),
]);

const window = z.strictObject({
  startS: metS.describe("Begin, seconds from touchdown."),
  endS: metS.describe("End, seconds from touchdown; not inside."),
});

/** A request for work on the surface. */
export const taskSchema = z
  .strictObject({
    id,
    number: shortName
      .optional()
      .describe(
        "The number that it has everywhere: the requester's own where there is one. Without it the next free whole number.",
      ),
    name: label,
    kind: z.enum(["sampling", "deployment", "survey", "upkeep"]).describe("What sort of work it is."),
    place: id.optional().describe("Where it begins; needed when crew is at work."),
    endPlace: id.optional().describe("Where it ends, when a carry or a survey traverse ends elsewhere."),
    walkM: ranged(0, 100_000, "Distance walked inside the task, m.").default(0),
    duration: z
      .strictObject({
        likelyS: spanS.describe("Most likely duration, s: the one that is planned with."),
        lowS: spanS.optional().describe("Short case, s."),
        highS: spanS.optional().describe("Long case, s."),
      })
      .describe("How long it takes: low <= likely <= high."),
    crew: z
      .strictObject({
        count: z.int().min(0).max(4).default(1).describe("How many crew members at once; 0 for remote work."),
        named: z.array(id).max(4).default([]).describe("These take part, whoever else does."),
        qualification: id.optional().describe("At least one taking part holds it."),
      })
      .prefault({})
      .describe("Who does it."),
    effort: effortSchema
      .default("geology")
      .describe("How hard it is: a category of measured rates, or watts."),
    worth: z.int().min(0).max(1_000_000).default(0).describe("What it is worth to have it done, points."),
    must: z.boolean().default(false).describe("Must be done; others are optional."),
    windows: z
      .array(window)
      .max(100)
      .default([])
      .describe("Start to end inside one of these; none means any time."),
    pet: z
      .strictObject({
        startS: spanS
          .optional()
          .describe("Begin, seconds from egress of its EVA (PET); without it from egress on."),
        endS: spanS.optional().describe("End, seconds from egress (PET); without it any time after."),
      })
      .optional()
      .describe(
        "Start to end inside this too, counted from the egress of its EVA, so that a late egress moves it.",
      ),
    sun: z
      .strictObject({
        leastDeg: ranged(-90, 90, "Sun elevation at least, degrees."),
        greatestDeg: ranged(-90, 90, "Sun elevation at most, degrees."),
      })
      .optional()
      .describe("Sun elevation allowed from start to end."),
    light: z
      .enum(["lit", "shaded"])
      .optional()
      .describe("Ground wanted at its place and end place, start to end: in the sun or in shadow."),
    sunAngle: z
      .strictObject({
        leastDeg: ranged(0, 180, "Sun's azimuth at least so far from where the crew faces, degrees."),
        greatestDeg: ranged(0, 180, "Sun's azimuth at most so far from it, degrees: 180 is the sun behind."),
        facingDeg: ranged(
          0,
          360,
          "Where the crew faces, degrees from north through east; without it from place to end place.",
        ).optional(),
      })
      .optional()
      .describe("Sun ahead, beside or behind, start to end: angle between heading and the sun's azimuth."),
    relay: z.boolean().default(false).describe("Only inside one relay pass, start to end."),
    equipment: z
      .array(
        z.strictObject({
          equipment: id,
          count: z.int().min(1).max(10_000).default(1).describe("How many are in use."),
        }),
      )
      .max(20)
      .default([])
      .describe("Shared equipment in use from start to end."),
    massOutKg: ranged(0, 500, "Carried out from the lander, kg.").default(0),
    returns: z
      .boolean()
      .optional()
      .describe("What is carried out comes back to the lander; without it not known."),
    sample: z
      .strictObject({
        container: id,
        massKg: ranged(0, 500, "Mass brought back, kg; 0 is not known."),
        volumeL: ranged(0, 1000, "Volume in the container, litres; 0 is not known.").default(0),
        bags: z
          .union([
            z.int().min(1).max(99).describe("How many; they are numbered by the task."),
            z.array(shortName).min(1).max(99).describe("The numbers that are on them."),
          ])
          .optional()
          .describe("Sample bags: how many, or their own numbers; without it not known."),
      })
      .optional()
      .describe("What is brought back, and in which container."),
    bringsNothing: z
      .literal(true)
      .optional()
      .describe(
        "It is said to bring nothing back; without it and without a sample that is not known of sampling.",
      ),
    instrument: z
      .boolean()
      .optional()
      .describe(
        "Leaves an instrument at its end place: blast keep-out holds. Without it yes for a deployment, no for other work.",
      ),
    mishap: taskMishapSchema
      .optional()
      .describe("What may go wrong with it on a simulated day, seldom; without it nothing but its duration."),
    cautions: z
      .array(cautionSchema)
      .max(20)
      .default([])
      .describe("What is read before the first step: they guard the whole task."),
    steps: stepsSchema.default([]).describe("Steps for the cuff checklist."),
    notes: note.default(""),
    pin: z
      .strictObject({
        startS: metS.optional().describe("Start, seconds from touchdown."),
        eva: id.optional(),
        crew: z.array(id).max(4).optional().describe("Exactly these do it."),
      })
      .optional()
      .describe("What the planner has fixed: start, EVA, crew."),
    toGive: toGiveField("tasks"),
  })
  .describe("A task.");

const end = z.enum(["start", "end"]).describe("Which end of the task counts.");

const pair = z.tuple([id, id]).describe("The two tasks.");

/** A condition between tasks. */
export const linkSchema = z.discriminatedUnion("type", [
  z
    .strictObject({
      id,
      type: z.literal("lag").describe("Bounds on a lag."),
      from: z.strictObject({ task: id, end }).describe("The end from which the lag is counted."),
      to: z.strictObject({ task: id, end }).describe("The end to which the lag is counted."),
      leastS: lagS.optional().describe("to minus from at least, s; may be negative."),
      greatestS: lagS.optional().describe("to minus from at most, s."),
      needs: z
        .enum(["none", "from", "both"])
        .default("from")
        .describe("from: the second task is done only if the first is. both: neither without the other."),
    })
    .describe("Before, within: bounds on the time between two ends."),
  z
    .strictObject({
      id,
      type: z.literal("crew").describe("Bound by crew."),
      tasks: pair,
      crew: z.enum(["same", "different"]).describe("same: the same members. different: none in common."),
    })
    .describe("By the same crew members, or with none in common."),
  z
    .strictObject({ id, type: z.literal("eva").describe("Bound by EVA."), tasks: pair })
    .describe("On the same EVA."),
  z
    .strictObject({
      id,
      type: z.literal("apart").describe("Bound by distance."),
      tasks: pair,
      leastM: ranged(0, 100_000, "End places at least so far apart, m."),
    })
    .describe("At least so far apart."),
]);

export type Task = z.infer<typeof taskSchema>;
export type Link = z.infer<typeof linkSchema>;
export type LagLink = Extract<Link, { type: "lag" }>;
