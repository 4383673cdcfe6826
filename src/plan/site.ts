import { z } from "zod";
import { id, label, metS, note, ranged, spanS } from "./fields.ts";
import { toGiveField } from "./togive.ts";

/** What ways are worked out from is bounded by what the judge can do: these lists one by one, what they come to together in `siteload`. */
export const MOST_PLACES_OF_SITE = 1000;
export const MOST_KEEP_OUTS = 200;
export const MOST_CORNERS = 500;
export const MOST_LEGS = 100_000;

/** The world under the lander. The Moon's numbers are the default. */
export const bodySchema = z
  .strictObject({
    name: label.default("Moon"),
    gravityMs2: ranged(0.01, 30, "Surface gravity, m/s2.").default(1.62),
    radiusM: ranged(1000, 1e8, "Mean radius, m.").default(1_737_400),
    ephemeris: z
      .enum(["moon", "none"])
      .default("moon")
      .describe(
        "Where sun and Earth stand: computed for the Moon. Over any other body they are unknown (none), and so are light, sun angle and Earth link.",
      ),
  })
  .describe("The airless body.");

const eastM = ranged(-100_000, 100_000, "East of the lander, m.");
const northM = ranged(-100_000, 100_000, "North of the lander, m.");

/** A named point on the ground. */
const placeSchema = z.strictObject({
  id,
  name: label,
  kind: z.enum(["lander", "station", "deployment"]).describe("What the place is for."),
  eastM,
  northM,
  upM: ranged(-20_000, 20_000, "Height above the lander's footing, m.").default(0),
  toGive: toGiveField("places"),
});

/** A disc or polygon where something must not be. */
const keepOutSchema = z.strictObject({
  id,
  name: label,
  kind: z
    .enum(["walking", "hot"])
    .describe("walking: nobody walks through. hot: nobody works inside once the heat is there."),
  shape: z
    .discriminatedUnion("type", [
      z.strictObject({
        type: z.literal("disc").describe("A round one."),
        eastM,
        northM,
        radiusM: ranged(0.1, 50_000, "Radius, m."),
      }),
      z.strictObject({
        type: z.literal("polygon").describe("One with corners."),
        points: z
          .array(z.strictObject({ eastM, northM }))
          .min(3)
          .max(MOST_CORNERS)
          .describe("Corners in order; the last is joined to the first."),
      }),
    ])
    .describe("Where it holds."),
  afterTask: id.optional().describe("The keep-out holds from the end of this task on; without it, always."),
  exemptTasks: z.array(id).default([]).describe("Tasks done with the proper tool, allowed inside."),
});

/** A traverse leg whose numbers the planner gives instead of the computed ones. */
const legSchema = z.strictObject({
  from: id,
  to: id,
  distanceM: ranged(0, 1e6, "Distance walked, m."),
  durationS: spanS.describe("Walking time, s."),
  bothWays: z.boolean().default(true).describe("The same numbers hold for the way back."),
  walkbackPeakM: ranged(
    0,
    1e6,
    "Longest way home from any point of the leg, m; computed when left out.",
  ).optional(),
});

/** Where the work is done: coordinates, places, ways, keep-outs. */
export const siteSchema = z.strictObject({
  name: label,
  latDeg: ranged(-90, 90, "Latitude, degrees, north positive."),
  lonDeg: ranged(-180, 180, "Longitude, degrees, east positive."),
  elevationM: ranged(-20_000, 20_000, "Elevation above the mean radius, m.").default(0),
  places: z
    .array(placeSchema)
    .min(1)
    .max(MOST_PLACES_OF_SITE)
    .describe("Named points; exactly one is the lander."),
  keepOuts: z.array(keepOutSchema).max(MOST_KEEP_OUTS).default([]).describe("Where nobody walks or works."),
  legs: z
    .array(legSchema)
    .max(MOST_LEGS)
    .default([])
    .describe("Ways whose numbers the planner gives; all others are computed."),
  notes: note.default(""),
  toGive: toGiveField("site"),
});

const block = z.strictObject({
  id,
  name: label,
  kind: z.enum(["sleep", "meal", "other"]).describe("What the time is for."),
  crew: z.array(id).default([]).describe("Who rests; empty means everybody."),
  startS: metS.describe("Begin, seconds from touchdown."),
  endS: metS.describe("End, seconds from touchdown; not inside."),
});

/** The time on the surface. */
export const staySchema = z.strictObject({
  touchdownUtc: z.iso
    .datetime({ message: "must be a UTC time such as 2031-04-05T06:07:00Z" })
    .describe("Touchdown, UTC: zero of MET."),
  lengthS: spanS.describe("From touchdown to liftoff, s."),
  blocks: z.array(block).max(100).default([]).describe("Sleep and meals: nobody named is outside then."),
  relayPasses: z
    .array(z.strictObject({ id, name: label, startS: metS, endS: metS }))
    .max(500)
    .default([])
    .describe("When the relay can be reached."),
  earthLink: z
    .boolean()
    .default(false)
    .describe("The Earth is a relay too while it stands over the horizon of the task's place."),
  toGive: toGiveField("stay"),
});

export type Place = z.infer<typeof placeSchema>;
export type KeepOut = z.infer<typeof keepOutSchema>;
export type Leg = z.infer<typeof legSchema>;
export type Stay = z.infer<typeof staySchema>;
