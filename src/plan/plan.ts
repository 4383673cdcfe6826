import { z } from "zod";
import { containerSchema, crewSchema, equipmentSchema, evaSchema, storesSchema, suitSchema } from "./crew.ts";
import { label, note } from "./fields.ts";
import { rulesSchema } from "./rules.ts";
import { scheduleSchema, variantSchema } from "./schedule.ts";
import { bodySchema, siteSchema, staySchema } from "./site.ts";
import { linkSchema, taskSchema } from "./task.ts";

/** The document's format name and the version this program writes. */
export const FORMAT = "lopeline-plan";
export const VERSION = 1;

/** The whole document: site, stay, crew, suits, EVAs, tasks, links, rules, and the schedule. */
export const planSchema = z
  .strictObject({
    format: z.literal(FORMAT),
    version: z.literal(VERSION),
    title: label,
    notes: note.default(""),
    body: bodySchema.prefault({}),
    site: siteSchema,
    stay: staySchema,
    crew: z.array(crewSchema).max(4),
    suits: z.array(suitSchema).max(20),
    stores: storesSchema.prefault({}),
    evas: z.array(evaSchema).max(50),
    equipment: z.array(equipmentSchema).max(200).default([]),
    containers: z.array(containerSchema).max(50).default([]),
    tasks: z.array(taskSchema).max(2000),
    links: z.array(linkSchema).max(20_000).default([]),
    rules: rulesSchema.prefault({}),
    schedule: scheduleSchema.prefault({}),
    variants: z.array(variantSchema).max(50).default([]),
  })
  .describe("A Lopeline plan. All times are whole seconds from touchdown; SI units throughout.");

/** A parsed plan: every default filled in, every reference known to exist. */
export type Plan = z.infer<typeof planSchema>;
/** A plan as it may stand in a file: defaults may be left out. */
export type PlanInput = z.input<typeof planSchema>;
