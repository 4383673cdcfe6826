import type { PlanInput } from "../plan.ts";

/** The pieces of a plan as they may stand in a file, for those who write ready plans. */
export type SiteInput = PlanInput["site"];
export type StayInput = PlanInput["stay"];
export type SuitInput = PlanInput["suits"][number];
export type EvaInput = PlanInput["evas"][number];
export type TaskInput = PlanInput["tasks"][number];
export type LinkInput = NonNullable<PlanInput["links"]>[number];
export type PlaceInput = SiteInput["places"][number];
