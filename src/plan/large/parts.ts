import type { PlanInput } from "../plan.ts";

/** The pieces of a plan as they may stand in a file. */
export type EvaInput = PlanInput["evas"][number];
export type TaskInput = PlanInput["tasks"][number];
export type LinkInput = NonNullable<PlanInput["links"]>[number];
export type PlaceInput = PlanInput["site"]["places"][number];
