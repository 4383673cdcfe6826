import fc from "fast-check";
import type { Gait } from "../../src/terrain/index.ts";
import type { SiteInput } from "../../src/terrain/ground.ts";

/** Grounds to hold laws on: a lander at the origin and places p1, p2 ... about it. */

export const gait: Gait = { speedMs: 0.9, detour: 1.1, greatestSlopeDeg: 20 };

type KeepOut = SiteInput["keepOuts"][number];
type Leg = SiteInput["legs"][number];

const whole = (reach: number) => fc.integer({ min: -reach, max: reach });

export function groundOf(
  spots: readonly (readonly [number, number, number])[],
  keepOuts: readonly KeepOut[] = [],
  legs: readonly Leg[] = [],
): SiteInput {
  const place = (id: string, kind: string, [eastM, northM, upM]: readonly [number, number, number]) => ({
    id,
    kind,
    eastM,
    northM,
    upM,
  });
  return {
    places: [
      place("lander", "lander", [0, 0, 0]),
      ...spots.map((at, i) => place(`p${i + 1}`, "station", at)),
    ],
    keepOuts,
    legs,
  };
}

export const disc = (eastM: number, northM: number, radiusM: number): KeepOut => ({
  kind: "walking",
  shape: { type: "disc", eastM, northM, radiusM },
});

export const flatSpots = fc.array(fc.tuple(whole(800), whole(800), fc.constant(0)), {
  minLength: 1,
  maxLength: 9,
});
export const hillySpots = fc.array(fc.tuple(whole(800), whole(800), whole(60)), {
  minLength: 1,
  maxLength: 9,
});
export const discs = fc.array(
  fc
    .tuple(whole(800), whole(800), fc.integer({ min: 1, max: 300 }))
    .map(([eastM, northM, radiusM]) => disc(eastM, northM, radiusM)),
  { maxLength: 4 },
);

/** Discs near the lander, that hide it from the middle of many ways but not from their ends. */
export const nearDiscs = fc.array(
  fc
    .tuple(whole(300), whole(300), fc.integer({ min: 20, max: 120 }))
    .map(([eastM, northM, radiusM]) => disc(eastM, northM, radiusM)),
  { minLength: 1, maxLength: 3 },
);

/** Legs between any two of the first ten places, quicker or slower than the computed ones, one way or both. */
export const legs = fc.array(
  fc.record({
    from: fc.integer({ min: 0, max: 9 }).map((i) => (i === 0 ? "lander" : `p${i}`)),
    to: fc.integer({ min: 0, max: 9 }).map((i) => (i === 0 ? "lander" : `p${i}`)),
    distanceM: fc.integer({ min: 1, max: 3000 }),
    durationS: fc.integer({ min: 1, max: 6000 }),
    bothWays: fc.boolean(),
  }),
  { maxLength: 6 },
);
