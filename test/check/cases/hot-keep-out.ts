import type { Pairs } from "../pair.ts";
import { at, task, tinyPlan, type TinyParts } from "../tinyPlan.ts";

/** EV1 fuels the unit at b from 2000 to 2600: hot from then on within `radiusM`. EV2 works at a, 300 m away. */
export const plan = (
  otherS: number,
  radiusM: number,
  keepOut: { afterTask?: string; exemptTasks?: string[] } = { afterTask: "fuel" },
  more: TinyParts = {},
) =>
  tinyPlan({
    tasks: [task("fuel", "b"), task("other", "a")],
    placements: [at("fuel", 2000), at("other", otherS, ["ev2"])],
    site: {
      keepOuts: [
        {
          id: "hot",
          name: "the hot unit",
          kind: "hot",
          shape: { type: "disc", eastM: 600, northM: 0, radiusM },
          ...keepOut,
        },
      ],
    },
    ...more,
  });

export const hotKeepOut: Pairs = [
  {
    breaks: ["under way inside for a second of heat", plan(2001, 301)],
    holds: ["done as the heat begins", plan(2000, 301)],
  },
  {
    breaks: ["a metre inside", plan(5000, 301)],
    holds: ["on the rim", plan(5000, 300)],
  },
];
