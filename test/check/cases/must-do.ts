import type { Pairs } from "../pair.ts";
import { at, task, tinyPlan } from "../tinyPlan.ts";

export const plan = (placed: boolean) =>
  tinyPlan({ tasks: [task("one", "a", { must: true })], placements: placed ? [at("one", 2000)] : [] });

export const mustDo: Pairs = [
  { level: "open", breaks: ["left on the bench", plan(false)], holds: ["placed", plan(true)] },
];
