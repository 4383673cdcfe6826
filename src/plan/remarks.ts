import { z } from "zod";
import { id, note } from "./fields.ts";
import { isSeen, SEEN_ONLY } from "./hiddensigns.ts";

/** What people say of a plan: comments, sign-offs, and through whose hands it went. No answer about a day depends on it. */

/** A name as somebody typed it. It proves nothing about who that was. */
const personSchema = z
  .string()
  .trim()
  .min(1, "must not be empty")
  .max(60)
  .refine(isSeen, SEEN_ONLY)
  .describe("A name as it was typed; no proof of who it was.");

/** What is spoken of. It may be gone from the plan since: what was said of it stays. */
const aboutSchema = z
  .strictObject({
    kind: z.enum(["task", "rule", "page"]).describe("A task, a group of the flight rules, a page of paper."),
    id: z
      .string()
      .regex(/^[A-Za-z0-9-]{1,64}$/, "use letters, digits and hyphens")
      .describe("Id of the task, name of the group in `rules`, or kind of the page."),
  })
  .describe("What it is about; it may be gone from the plan since.");

const atUtc = z.iso
  .datetime({ message: "must be a UTC time such as 2031-04-05T06:07:00Z" })
  .describe("When, UTC, as the clock of the machine had it.");

export const commentSchema = z.strictObject({
  id,
  about: aboutSchema,
  by: personSchema,
  atUtc,
  text: note.min(1, "must not be empty"),
  settled: z.boolean().default(false).describe("Nothing is left to do about it."),
});

export const signoffSchema = z.strictObject({
  id,
  about: aboutSchema,
  by: personSchema,
  atUtc,
  value: z
    .string()
    .regex(/^[0-9a-f]{64}$/, "must be 64 hexadecimal digits")
    .describe(
      "What was signed: SHA-256 of its canonical JSON (RFC 8785). Another value now means that it was changed since.",
    ),
});

/** Somebody who has saved the plan to a file. */
export const handSchema = z.strictObject({ id, name: personSchema });

export type About = z.infer<typeof aboutSchema>;
export type Comment = z.infer<typeof commentSchema>;
export type Signoff = z.infer<typeof signoffSchema>;
export type Hand = z.infer<typeof handSchema>;

/** The parts of a plan that are said of it: a day is the same with and without them. */
export const REMARKS = ["comments", "signoffs", "hands"] as const;
