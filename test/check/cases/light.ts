import { heavensOf, taskSky } from "../../../src/terrain/index.ts";
import type { Pairs } from "../pair.ts";
import { remote, task, type TaskInput, tinyPlan } from "../tinyPlan.ts";

/** A bank 30 m high from 200 m east on keeps the lander in shadow for some hours after sunrise. */
export const ground = {
  type: "grid" as const,
  westM: -700,
  southM: -700,
  cellM: 50,
  columns: 29,
  rows: 29,
  heights: Array.from({ length: 29 }, () =>
    Array.from({ length: 29 }, (_, column) => (column >= 18 ? 3000 : 0)).join(" "),
  ),
};

const site = { lonDeg: -60 };

/** Remote work of 600 s at the lander from `startS`. */
export const plan = (startS: number, asks: Partial<TaskInput>, tightS = 0, more = {}) =>
  tinyPlan({
    tasks: [task("photo", null, asks)],
    placements: [remote("photo", startS)],
    site,
    rules: { tightS },
    more: { body: { ephemeris: "moon" }, ground, ...more },
  });

const sky = (asks: Partial<TaskInput>) => {
  const made = plan(0, asks);
  return taskSky(heavensOf(made), { ...made.stay, places: made.site.places }, made.tasks[0]!);
};

export const lit = sky({ light: "lit" }).light![0]!;

/** The sun drifts from 91.140 to 91.156 degrees off the south in this stay. */
export const facing = { leastDeg: 91.15, greatestDeg: 180, facingDeg: 180 };

const angled = sky({ sunAngle: facing }).sunAngle![0]!;

export const light: Pairs = [
  {
    breaks: ["begins a second before the sun reaches it", plan(lit.startS - 1, { light: "lit" })],
    says: { need: 0, have: -1 },
    holds: ["begins as the sun reaches it", plan(lit.startS, { light: "lit" })],
  },
  {
    breaks: ["in shadow: ends as the sun comes", plan(lit.startS - 600, { light: "shaded" })],
    says: { need: 0, have: -1 },
    holds: ["in shadow: ends a second before the sun comes", plan(lit.startS - 601, { light: "shaded" })],
  },
];

export const sunAngle: Pairs = [
  {
    breaks: ["begins a second too early", plan(angled.startS - 1, { sunAngle: facing })],
    says: { need: 0, have: -1 },
    holds: ["begins as the angle is reached", plan(angled.startS, { sunAngle: facing })],
  },
];
