import type { FromAnswer, ExplainRequest } from "../../answers/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { fromFinding } from "./finding/index.ts";
import { fromHeat, fromLeft } from "./left.ts";
import { fromRule } from "./rule.ts";
import { fromWalked, fromWorth } from "./score.ts";
import { fromTask } from "./task.ts";
import { fromWalkback } from "./walkback.ts";

/** From what a figure of `schedule` comes; null where there is no such figure any more. */
export function fromWhat(plan: Plan, schedule: Schedule, ask: ExplainRequest): FromAnswer | null {
  switch (ask.what) {
    case "left":
      return fromLeft(plan, schedule, ask.eva, ask.crew, ask.consumable, ask.atS);
    case "heat":
      return fromHeat(plan, schedule, ask.eva, ask.crew);
    case "walkback":
      return fromWalkback(plan, schedule, ask.eva, ask.crew, ask.atS);
    case "task":
      return fromTask(plan, schedule, ask.task);
    case "worth":
      return fromWorth(plan, schedule);
    case "walked":
      return fromWalked(plan, schedule);
    case "finding":
      return fromFinding(plan, schedule, ask.rule, ask.subjects);
    case "rule":
      return fromRule(plan, ask.rule);
  }
}
