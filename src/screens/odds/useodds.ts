import { useEffect } from "react";
import { type OddsChoice, oddsAreDue } from "../../session/index.ts";
import { useApp, useSession } from "../context.ts";
import { useSettled } from "../settled.ts";

/** How long a plan that changes step by step has to rest, ms. */
const REST_MS = 500;

/** Has the odds of a day worked out, `choice` being how, whenever they are due and the plan rests. */
export function useOdds(which: string, choice: OddsChoice): void {
  const { session } = useApp();
  const plan = useSession((state) => state.plan);
  const rests = useSettled(plan, REST_MS) === plan;
  const due = useSession((state) => oddsAreDue(state, which));
  useEffect(() => {
    if (due && rests) void session.askOdds(which, choice);
  }, [due, rests, which, choice, session]);
}
