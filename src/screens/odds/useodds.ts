import { useEffect } from "react";
import { type OddsChoice, oddsAreDue } from "../../session/index.ts";
import { useAround, useDesk } from "../context.ts";
import { useSettled } from "../settled.ts";

/** How long a plan that changes step by step has to rest, ms. */
const REST_MS = 500;

/** Has the odds of a day worked out, `choice` being how, whenever they are due and the plan rests. */
export function useOdds(which: string, choice: OddsChoice): void {
  const { desk } = useAround();
  const plan = useDesk((state) => state.plan);
  const rests = useSettled(plan, REST_MS) === plan;
  const due = useDesk((state) => oddsAreDue(state, which));
  useEffect(() => {
    if (due && rests) void desk.askOdds(which, choice);
  }, [due, rests, which, choice, desk]);
}
