import { z } from "zod";
import { duration, instant } from "../kernel/index.ts";
import { isSeen, leavesMark, SEEN_ONLY } from "./hiddensigns.ts";

// No code is made of texts: the page's policy forbids it. Said here, since every schema is made of these fields.
z.config({ jitless: true });

/**
 * The document's basic fields. Each carries unit, range and plain words, which become the JSON Schema and the
 * hints of the setup tables.
 */

/** As many signs as the number of a task or a bag may have: it stands in a frame at the head of a page. */
export const LONGEST_NUMBER = 8;

/** A name inside the document: lower-case letters, digits and hyphens. */
export const id = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "use lower-case letters, digits and single hyphens")
  .max(64)
  .describe("Name inside the document: lower-case letters, digits and hyphens.");

/** A short text for people. */
export const label = z
  .string()
  .trim()
  .min(1, "must not be empty")
  .max(120)
  .refine(leavesMark, "must not be empty")
  .refine(isSeen, SEEN_ONLY)
  .describe("Short text for people.");

/** What is written on a thing or in a frame: the number of a task, of a bag. */
export const shortName = z
  .string()
  .trim()
  .regex(
    /^[A-Za-z0-9]+([./-][A-Za-z0-9]+)*$/,
    "use letters and digits, with single points, hyphens or slashes between",
  )
  .max(LONGEST_NUMBER)
  .describe("Letters and digits, with single points, hyphens or slashes between.");

/** A line of text for people: a caution, a step. */
export const line = z
  .string()
  .trim()
  .min(1, "must not be empty")
  .max(240)
  .refine(leavesMark, "must not be empty")
  .refine(isSeen, SEEN_ONLY)
  .describe("A line of text for people.");

/** A longer text for people, possibly empty. */
export const note = z
  .string()
  .max(4000)
  .refine(isSeen, SEEN_ONLY)
  .describe("Longer text for people, possibly empty.");

// Ten years either way: far beyond any stay, small enough for exact sums.
const farS = 315_360_000;
const tooFar = "must lie within ten years";

/** A point in time, whole seconds from touchdown (MET). */
export const metS = z
  .int("must be whole seconds")
  .min(-farS, tooFar)
  .max(farS, tooFar)
  .transform((value) => instant(value))
  .describe("Seconds from touchdown (MET).");

/** A length of time, whole seconds, zero or more. */
export const spanS = z
  .int("must be whole seconds")
  .min(0, "must not be negative")
  .max(farS, tooFar)
  .transform((value) => duration(value))
  .describe("Length of time, s.");

/** A lag, whole seconds, possibly negative. */
export const lagS = z
  .int("must be whole seconds")
  .min(-farS, tooFar)
  .max(farS, tooFar)
  .transform((value) => duration(value));

/** A number from `low` to `high`, both allowed. */
export function ranged(low: number, high: number, words: string): z.ZodNumber {
  return z.number().min(low).max(high).describe(words);
}

/** A share from 0 to 1. */
export function share(words: string): z.ZodNumber {
  return ranged(0, 1, `${words} Share, 0 to 1.`);
}
