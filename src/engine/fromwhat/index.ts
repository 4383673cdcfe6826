import type { FromAnswer, ExplainRequest } from "../../answers/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { fromFinding } from "./finding/index.ts";
import { fromHeat, fromLeft } from "./left.ts";
import { fromRule } from "./rule.ts";
import { fromWalked, fromWorth } from "./score.ts";
import { fromTask } from "./task.ts";
import { fromWalkback } from "./walkback.ts";

/** From what a figure of `schedule` comes; null where there is no such figure any more. */
export function fromWhat(plan: Plan, schedule: Schedule, request: ExplainRequest): FromAnswer | null {
  switch (request.what) {
    case "left":
      return fromLeft(plan, schedule, request.eva, request.crew, request.consumable, request.atS);
    case "heat":
      return fromHeat(plan, schedule, request.eva, request.crew);
    case "walkback":
      return fromWalkback(plan, schedule, request.eva, request.crew, request.atS);
    case "task":
      return fromTask(plan, schedule, request.task);
    case "worth":
      return fromWorth(plan, schedule);
    case "walked":
      return fromWalked(plan, schedule);
    case "finding":
      return fromFinding(plan, schedule, request.rule, request.subjects);
    case "rule":
      return fromRule(plan, request.rule);
  }
}
