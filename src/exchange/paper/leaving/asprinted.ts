import type { PrintedDay, Verdict } from "../../../answers/index.ts";
import { check, type Departures } from "../../../check/index.ts";
import type { Plan } from "../../../plan/index.ts";

/** The judge's word on the day as the crew's paper has it: out, in and away at the printed moments. */
export function playedAsPrinted(plan: Plan, day: PrintedDay): Verdict {
  return check(plan, plan.schedule, departuresOf(day));
}

/** Out, in and away at the printed moments, as the judge is told of them. */
export function departuresOf({ egressS, ingressS, leaves }: PrintedDay): Departures {
  const leaveS = new Map(
    [...leaves].map(([crew, own]) => [crew, new Map([...own].map(([task, { atS }]) => [task, atS]))]),
  );
  return { egressS, ingressS, leaveS };
}
