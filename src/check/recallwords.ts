import type { Recall } from "../answers/index.ts";
import type { Plan } from "../plan/index.ts";
import { clock, evaName } from "../words/index.ts";
import { recallLimiterWords } from "./limits.ts";

/**
 * How soon and how late all of an EVA can be inside, in words, each moment to the minute on its safe side; `isShort` where that does not go
 * together, or somebody has no way home: then it is a sentence that names the EVA.
 */
export function recallWords(
  plan: Plan,
  { eva, earliestS, latest }: Recall,
): { readonly isShort: boolean; readonly words: string } {
  const name = evaName(plan, eva);
  if (earliestS === null) return { isShort: true, words: `Somebody on ${name} has no way home.` };
  const [soonest, last] = [clock(earliestS, "up"), clock(latest.ingressS, "down")];
  const by = recallLimiterWords(plan, latest.by);
  if (earliestS > latest.ingressS)
    return {
      isShort: true,
      words: `${name} cannot be inside by ${last} (${by}): earliest ingress ${soonest}, if everything is dropped now.`,
    };
  return {
    isShort: false,
    words: `earliest ingress ${soonest} if everything is dropped now, latest ${last} (${by})`,
  };
}
