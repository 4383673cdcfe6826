import { z } from "zod";
import type { Fault } from "./fault.ts";
import { note, ranged, share } from "./fields.ts";

/**
 * The ground as a grid of heights, measured or made. Without it the plan's ways are straight lines between places.
 *
 * A grid has points, not tiles: the south-west point stands at (westM, southM) from the lander, the others follow
 * `cellM` apart to the east and north. Heights are counted from any common level; a place then stands at the height of
 * the grid and its `upM` is not read.
 */

/** More points than this are refused: working out ways takes about 70 bytes for each. */
export const MOST_POINTS = 1_000_000;

/** More places than this on a height grid are refused: ways between all of them would take too long. */
const MOST_PLACES = 120;

const side = z.int().min(2).max(4000);

const laid = {
  westM: ranged(-100_000, 100_000, "East of the lander of the south-west point, m."),
  southM: ranged(-100_000, 100_000, "North of the lander of the south-west point, m."),
  cellM: ranged(0.1, 1000, "Distance from point to point, m."),
  columns: side.describe("Points from west to east."),
  rows: side.describe("Points from south to north."),
  detour: ranged(1, 3, "Way walked over the line on the grid, for what is smaller than a cell.").default(
    1.05,
  ),
  aim: z
    .enum(["time", "energy"])
    .default("time")
    .describe("What the ways spare: walking time, or energy of the heaviest crew member."),
};

const grid = z
  .strictObject({
    type: z.literal("grid").describe("Heights point by point."),
    ...laid,
    unit: z.enum(["mm", "cm"]).default("cm").describe("Unit of the heights."),
    heights: z
      .array(
        z.string().regex(/^(-?\d{1,9}|x)( (-?\d{1,9}|x))*$/, 'write whole numbers or "x", a space between'),
      )
      .min(2)
      .max(4000)
      .describe('Heights row by row, the northernmost first, west to east, "x" where the height is unknown.'),
    source: note.default("").describe("Where the heights come from."),
  })
  .describe("Heights point by point.");

const middle = {
  eastM: ranged(-100_000, 100_000, "Middle, east of the lander, m."),
  northM: ranged(-100_000, 100_000, "Middle, north of the lander, m."),
  diameterM: ranged(1, 20_000, "Across, m."),
};

const crater = z
  .strictObject({
    type: z.literal("crater").describe("A bowl with a rim."),
    ...middle,
    freshness: share("1 as fallen, towards 0 worn away."),
  })
  .describe("A crater.");

const dome = z
  .strictObject({
    type: z.literal("dome").describe("A rounded rise, or a hollow."),
    ...middle,
    heightM: ranged(-2000, 2000, "Height of the crown over the ground about it, m; below 0 a hollow."),
  })
  .describe("A dome.");

const made = z
  .strictObject({
    type: z.literal("made").describe("Ground made by the program from a few numbers."),
    ...laid,
    seed: z
      .int()
      .min(0)
      .max(4_294_967_295)
      .describe("Another seed, another ground; the same seed, the same."),
    roughnessM: ranged(0, 200, "Standard swing of the rolling ground between the craters, m.").default(3),
    hurst: ranged(0.5, 1, "How smooth the rolling is: 1 gentle, 0.5 rugged (Hurst exponent).").default(0.9),
    cratered: share("Craters, as a share of geometric saturation.").default(0.03),
    steepness: ranged(1.5, 4, "Cumulative number of craters falls with this power of the diameter.").default(
      2,
    ),
    largestM: ranged(1, 5000, "Largest crater, m across.").default(200),
    landforms: z
      .array(z.discriminatedUnion("type", [crater, dome]))
      .max(100)
      .default([])
      .describe("Craters and domes that stand where the planner wants them."),
  })
  .describe("Ground made by the program: rolling and cratered.");

/** The ground under the places: heights point by point, or the recipe of made ground. */
export const groundSchema = z
  .discriminatedUnion("type", [grid, made])
  .describe("The ground as a grid of heights; without it ways are straight lines.");

export type PlanGround = z.infer<typeof groundSchema>;
export type PlanGroundInput = z.input<typeof groundSchema>;

/** Faults of a ground whose fields are right one by one: too many points or places, rows that do not fit the counts. */
export function groundFaults(ground: PlanGround, places: number): Fault[] {
  const points = ground.columns * ground.rows;
  if (points > MOST_POINTS) {
    return [{ path: "ground.columns", message: `${points} points are too many: at most ${MOST_POINTS}` }];
  }
  if (places > MOST_PLACES) {
    const message = `${places} places are too many on a height grid: at most ${MOST_PLACES}`;
    return [{ path: "site.places", message }];
  }
  if (ground.type === "made") return [];
  if (ground.heights.length !== ground.rows) {
    return [
      { path: "ground.heights", message: `has ${ground.heights.length} rows, ${ground.rows} are announced` },
    ];
  }
  return ground.heights.flatMap((row, i) => {
    const found = row.split(" ").length;
    return found === ground.columns
      ? []
      : [{ path: `ground.heights.${i}`, message: `has ${found} heights, ${ground.columns} are announced` }];
  });
}
