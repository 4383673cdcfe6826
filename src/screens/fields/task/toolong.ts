import type { Plan, Task } from "../../../plan/index.ts";
import { clock } from "../../../words/index.ts";

/**
 * Durations that can hardly be meant, such as `25:00` for 25 minutes. The plan takes them, as no rule of its form is broken; no day would
 * ever hold the task.
 */

/** Why a duration of `lastsS` seconds leaves a task without any place in the stay; null where it does not. */
export function tooLong(lastsS: number | undefined, { crew }: Task, plan: Plan): string | null {
  const beyondStay = tooLongCase(lastsS, plan);
  if (beyondStay !== null || lastsS === undefined) return beyondStay;
  if (crew.count === 0 || plan.evas.length === 0) return null;
  const mostS = Math.max(0, ...plan.evas.map(workS));
  return lastsS > mostS ? `Longer than any EVA has for work: ${clock(mostS)} at most.` : null;
}

/** What an EVA leaves between its egress and ingress work, walks counted in, s. */
function workS({
  earliestEgressS,
  latestIngressS,
  longestS,
  egressWorkS,
  ingressWorkS,
}: Plan["evas"][number]): number {
  return Math.min(longestS, latestIngressS - earliestEgressS) - egressWorkS - ingressWorkS;
}

/** The same of a long case, which may well go beyond an EVA, but never beyond the stay. */
export function tooLongCase(lastsS: number | undefined, { stay }: Plan): string | null {
  return lastsS !== undefined && lastsS > stay.lengthS
    ? `Longer than the stay of ${clock(stay.lengthS)}.`
    : null;
}

/** True where any of a task's durations can hardly be meant. */
export function isTooLong(task: Task, plan: Plan): boolean {
  const { likelyS, lowS, highS } = task.duration;
  return (
    tooLong(likelyS, task, plan) !== null ||
    tooLong(lowS, task, plan) !== null ||
    tooLongCase(highS, plan) !== null
  );
}
