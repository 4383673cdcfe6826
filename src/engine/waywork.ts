import type { Plan } from "../plan/index.ts";
import { workedWays } from "../terrain/index.ts";
import type { Calls } from "./calls.ts";
import type { Turn } from "./drive.ts";

/** The ways of a plan, worked out place by place. Rejects where it is broken off. */
export async function ways(
  plan: Plan,
  options: Calls["ways"]["given"],
  { report, yieldToHost, signal }: Turn<"ways">,
): Promise<Calls["ways"]["answer"]> {
  const steps = workedWays(plan, options);
  const total = plan.site.places.length;
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    if (signal?.aborted) throw new Error("the ways were broken off");
    report?.({ done: step.value, total });
    await yieldToHost?.();
  }
}
