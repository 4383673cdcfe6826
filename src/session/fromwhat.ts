import type { FromAnswer, ExplainRequest } from "../answers/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { Core } from "./core.ts";

/** Asks from what figures come. */
export interface FromCommands {
  /**
   * From what a figure of `day` comes: "gone" where that day has no such figure, "failed" where it could not be worked out, which says
   * nothing about the figure.
   */
  fromWhat(request: ExplainRequest, day: GivenDay): Promise<FromAnswer | "gone" | "failed">;
}

/** A day that figures are asked of. */
export interface GivenDay {
  readonly plan: Plan;
  readonly schedule: Schedule;
}

export function fromCommands({ ports }: Core): FromCommands {
  return {
    async fromWhat(request, { plan, schedule }) {
      try {
        return (await ports.engine.fromWhat(plan, { schedule, request })) ?? "gone";
      } catch {
        // Said where it was asked, and asked again from there.
        return "failed";
      }
    },
  };
}
