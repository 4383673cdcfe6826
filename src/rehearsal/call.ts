import { z } from "zod";
import { faultWords } from "../plan/faultwords.ts";
import { id, line, metS } from "../plan/fields.ts";
import { scheduleSchema } from "../plan/schedule.ts";

/** What can be called out while a day is rehearsed; each call has the mission time it was made at. */

const at = { atS: metS.describe("When it was called, seconds from touchdown.") };
const share = z.int().min(10).max(500).describe("Percent of the planned time.");

const callSchema = z.discriminatedUnion("kind", [
  z.strictObject({ ...at, kind: z.literal("out"), eva: id }).describe("Egress: the EVA begins."),
  z.strictObject({ ...at, kind: z.literal("in"), eva: id }).describe("Ingress complete."),
  z.strictObject({ ...at, kind: z.literal("begins"), task: id }).describe("Work on a task begins."),
  z.strictObject({ ...at, kind: z.literal("ends"), task: id }).describe("A task is done."),
  z.strictObject({ ...at, kind: z.literal("left-out"), task: id }).describe("A task is given up."),
  z
    .strictObject({ ...at, kind: z.literal("spoilt"), task: id })
    .describe("Work on a task is over, and its result is lost."),
  z
    .strictObject({ ...at, kind: z.literal("longer"), task: id, byS: z.int().min(-36_000).max(36_000) })
    .describe("A task takes so much longer than planned, s; less when negative."),
  z.strictObject({ ...at, kind: z.literal("hold"), untilS: metS }).describe("Nothing begins before then."),
  z
    .strictObject({ ...at, kind: z.literal("slower"), crew: id, percent: share })
    .describe("What this crew member has not begun takes so long, of the planned time."),
  z
    .strictObject({
      ...at,
      kind: z.literal("reading"),
      crew: id,
      consumable: z.enum(["oxygen", "co2", "water", "battery"]),
      left: z.number().min(0).max(100_000).describe("What the gauge shows: kg, or Wh for the battery."),
    })
    .describe("A gauge is read out."),
  z
    .strictObject({ ...at, kind: z.literal("back-by"), eva: id, byS: metS })
    .describe("Ingress complete by then."),
  z
    .strictObject({ ...at, kind: z.literal("broken"), equipment: id, count: z.int().min(1).max(10_000) })
    .describe("So many of an equipment are of no more use."),
  z
    .strictObject({ ...at, kind: z.literal("no-relay"), pass: id })
    .describe("A relay pass is lost from now on."),
  z.strictObject({ ...at, kind: z.literal("closed"), place: id }).describe("No further work at a place."),
  z
    .strictObject({ ...at, kind: z.literal("replanned"), schedule: scheduleSchema })
    .describe("What is to come is done by this schedule from now on."),
  z.strictObject({ ...at, kind: z.literal("note"), words: line }).describe("Something to remember."),
]);

export type Call = z.infer<typeof callSchema>;
export type Reading = Extract<Call, { kind: "reading" }>;

/** Why a call could not be read again from a file, in words; null where it could. */
export function formFault(call: Call): string | null {
  const [first] = callSchema.safeParse(call, { error: faultWords }).error?.issues ?? [];
  return first ? `${first.path.join(".")} ${first.message}`.trim() : null;
}

/** As many calls as one rehearsal may have. */
export const MOST_CALLS = 20_000;

/** Of the form of a rehearsal file. */
export const VERSION = 1;

export const rehearsalSchema = z.strictObject({
  format: z.literal("lopeline-rehearsal"),
  version: z.literal(VERSION),
  seed: z.int().min(0).max(4_294_967_295).describe("Of what is drawn when the crew plays by itself."),
  nowS: metS.describe("Mission time of the rehearsal's clock."),
  calls: z.array(callSchema).max(MOST_CALLS).describe("In the order in which they were made."),
});

/** A day that is being rehearsed, without its plan. */
export type Rehearsal = z.infer<typeof rehearsalSchema>;

/** A rehearsal at its begin. */
export function rehearsalFrom(nowS: number, seed: number): Rehearsal {
  return rehearsalSchema.parse({ format: "lopeline-rehearsal", version: VERSION, seed, nowS, calls: [] });
}
