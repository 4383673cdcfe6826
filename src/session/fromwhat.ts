import type { FromAnswer, ExplainRequest } from "../answers/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { Core } from "./core.ts";
import { shownPlan, shownSchedule } from "./selectors.ts";

/** Asks from what figures come. */
export interface FromCommands {
  /**
   * From what a figure of `day` comes, the day on the screen when none is given; null where there is no such figure any
   * more, or nobody can say.
   */
  fromWhat(ask: ExplainRequest, day?: AskedDay): Promise<FromAnswer | null>;
}

/** A day that figures are asked of. */
export interface AskedDay {
  readonly plan: Plan;
  readonly schedule: Schedule;
}

export function fromCommands({ state, ports }: Core): FromCommands {
  return {
    async fromWhat(ask, day) {
      const now = state.getState();
      const { plan, schedule } = day ?? { plan: shownPlan(now), schedule: shownSchedule(now) };
      try {
        return await ports.engine.fromWhat(plan, { schedule, ask });
      } catch {
        // Said where it was asked: there is no answer.
        return null;
      }
    },
  };
}
