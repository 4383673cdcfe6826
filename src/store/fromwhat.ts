import type { FromAnswer, FromAsk } from "../engine/protocol.ts";
import type { Core } from "./core.ts";
import { shownPlan, shownSchedule } from "./selectors.ts";

/** Asks from what figures come. */
export interface FromCommands {
  /** From what a figure on the screen comes; null where there is no such figure any more, or nobody can say. */
  fromWhat(ask: FromAsk): Promise<FromAnswer | null>;
}

export function fromCommands({ state, ports }: Core): FromCommands {
  return {
    async fromWhat(ask) {
      const now = state.getState();
      try {
        return await ports.engine.fromWhat(shownPlan(now), shownSchedule(now), ask);
      } catch {
        // Said where it was asked: there is no answer.
        return null;
      }
    },
  };
}
