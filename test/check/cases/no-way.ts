import type { Pairs } from "../pair.ts";
import { at, eva, place, task, tinyPlan } from "../tinyPlan.ts";

/**
 * A ring of four thin walls shuts in the place `out` at (100, 0), which only `legs` lead to. A disc would shut it in
 * as well, but a place inside a disc lies inside the keep-out itself.
 */
const wall = (id: string, [w, s, e, n]: [number, number, number, number]) => ({
  id,
  name: id,
  kind: "walking" as const,
  shape: {
    type: "polygon" as const,
    points: [
      { eastM: w, northM: s },
      { eastM: e, northM: s },
      { eastM: e, northM: n },
      { eastM: w, northM: n },
    ],
  },
});

export const plan = (
  legs: { from: string; to: string; distanceM: number; durationS: number; bothWays?: boolean }[],
) =>
  tinyPlan({
    places: [place("lander", 0, 0), place("out", 100, 0)],
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("work", "out")],
    placements: [at("work", 2000)],
    site: {
      legs,
      keepOuts: [
        wall("west", [48, -60, 52, 60]),
        wall("east", [148, -60, 152, 60]),
        wall("south", [48, -60, 152, -56]),
        wall("north", [48, 56, 152, 60]),
      ],
    },
  });

export const gate = { from: "lander", to: "out", distanceM: 130, durationS: 150 };

export const noWay: Pairs = [
  {
    breaks: ["a way out by a leg, none home", plan([{ ...gate, bothWays: false }])],
    // The missing way is one finding, that home cannot be reached from there the other.
    also: ["no-way"],
    holds: ["a leg that goes both ways", plan([gate])],
  },
];
