import { z } from "zod";
import { containerSchema, crewSchema, equipmentSchema, evaSchema, storesSchema, suitSchema } from "./crew.ts";
import { label, note } from "./fields.ts";
import { groundSchema } from "./ground.ts";
import { groupSchema } from "./group.ts";
import { oddsSchema } from "./odds.ts";
import { rulesSchema } from "./rules.ts";
import { revisionSchema } from "./revision.ts";
import { commentSchema, handSchema, signoffSchema } from "./remarks.ts";
import { scheduleSchema, variantSchema } from "./schedule.ts";
import { bodySchema, siteSchema, staySchema } from "./site.ts";
import { proceduresSchema } from "./step.ts";
import { linkSchema, taskSchema } from "./task.ts";

/** The document's format name and the version this program writes. */
export const FORMAT = "lopeline-plan";
export const VERSION = 3;

/** The whole document: site, stay, crew, suits, EVAs, tasks, links, rules, and the schedule. */
export const planSchema = z
  .strictObject({
    format: z.literal(FORMAT).describe("Marks the file as a plan of this program."),
    version: z.literal(VERSION).describe("Version of the format."),
    title: label,
    notes: note.default(""),
    revision: revisionSchema.prefault({}).describe("Which state of the plan this is."),
    body: bodySchema.prefault({}),
    site: siteSchema.describe("Where the work is done."),
    ground: groundSchema.optional(),
    stay: staySchema.describe("The time on the surface."),
    crew: z.array(crewSchema).max(4).describe("Who is there."),
    suits: z.array(suitSchema).max(20).describe("Suits with their packs."),
    stores: storesSchema.prefault({}).describe("What the lander holds to recharge suits."),
    evas: z.array(evaSchema).max(50).describe("The outings."),
    equipment: z.array(equipmentSchema).max(200).default([]).describe("Tools and units that are shared."),
    containers: z.array(containerSchema).max(50).default([]).describe("Boxes for samples."),
    tasks: z.array(taskSchema).max(2000).describe("The requests for work."),
    links: z.array(linkSchema).max(20_000).default([]).describe("Conditions between tasks."),
    groups: z
      .array(groupSchema)
      .max(500)
      .default([])
      .describe("Tasks of which so many are wanted, or each further one for less."),
    procedures: proceduresSchema
      .prefault({})
      .describe("Egress, ingress and emergency, for the crew's paper."),
    rules: rulesSchema.prefault({}).describe("The flight rules' numbers."),
    odds: oddsSchema,
    schedule: scheduleSchema.prefault({}).describe("Who does what, when; what is not named is on the bench."),
    variants: z.array(variantSchema).max(50).default([]).describe("Named alternative schedules."),
    comments: z
      .array(commentSchema)
      .max(2000)
      .default([])
      .describe("What people say of tasks, rules and pages."),
    signoffs: z
      .array(signoffSchema)
      .max(2000)
      .default([])
      .describe("Who has signed a task, a rule or a page."),
    hands: z
      .array(handSchema)
      .max(200)
      .default([])
      .describe("Who has saved it to a file, the last of them last."),
  })
  .describe("A Lopeline plan. All times are whole seconds from touchdown; SI units throughout.");

/** A parsed plan: every default filled in, every reference known to exist. */
export type Plan = z.infer<typeof planSchema>;
/** A plan as it may stand in a file: defaults may be left out. */
export type PlanInput = z.input<typeof planSchema>;
