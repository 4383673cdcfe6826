import type { Pairs } from "../pair.ts";
import { at, eva, task, type TaskInput, tinyPlan, type TinyParts } from "../tinyPlan.ts";

/** EV1 alone with one task; everybody walks and walks back at 1 m/s. */
export const alone = (what: TaskInput, more: TinyParts = {}) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [what],
    placements: [at(what.id, 2000)],
    ...more,
  });

// a to b are 300 m: 300 s at 1 m/s.
export const carry = (likelyS: number, walkM = 0) =>
  alone(task("carry", "a", { endPlace: "b", walkM, duration: { likelyS } }));

export const walkingPhysics: Pairs = [
  {
    breaks: ["300 m in 299 s", carry(299)],
    says: { need: 300, have: 299 },
    holds: ["300 m in 300 s", carry(300)],
  },
  {
    breaks: ["400 m walked, 100 m of them beside the way, in 399 s", carry(399, 400)],
    says: { need: 400, have: 399 },
    holds: ["in 400 s", carry(400, 400)],
  },
  {
    breaks: [
      "500 m walked about one place in 499 s",
      alone(task("roam", "a", { walkM: 500, duration: { likelyS: 499 } })),
    ],
    says: { need: 500, have: 499 },
    holds: ["in 500 s", alone(task("roam", "a", { walkM: 500, duration: { likelyS: 500 } }))],
  },
];
