import type { PrintedDay, Verdict } from "../../../answers/index.ts";
import { check } from "../../../check/index.ts";
import type { Plan } from "../../../plan/index.ts";

/** The judge's word on the day as the crew's paper has it: out, in and away at the printed moments. */
export function playedAsPrinted(plan: Plan, { egressS, ingressS, leaves }: PrintedDay): Verdict {
  const leaveS = new Map(
    [...leaves].map(([crew, own]) => [crew, new Map([...own].map(([task, { atS }]) => [task, atS]))]),
  );
  return check(plan, plan.schedule, { egressS, ingressS, leaveS });
}
