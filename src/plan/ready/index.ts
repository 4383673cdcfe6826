import type { PlanInput } from "../plan.ts";
import { demoPlan } from "./demo/index.ts";
import { largePlan } from "./large/index.ts";
import { smallPlan } from "./small/index.ts";

export { demoPlan, largePlan, smallPlan };

/** The ready plans by the name of their file, each built afresh. */
export const READY_PLANS: Readonly<Record<"demo" | "small" | "large", () => PlanInput>> = {
  demo: demoPlan,
  small: smallPlan,
  large: () => largePlan(),
};
