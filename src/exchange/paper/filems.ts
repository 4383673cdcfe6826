import { touchdownMs } from "../../words/index.ts";
import type { Plan } from "../../plan/index.ts";

/**
 * The date written into a file of paper, milliseconds since 1970: the plan's own touchdown, so that equal input gives equal bytes. It is
 * nobody's statement of when the lander touches down.
 */
export function fileMs(plan: Plan): number {
  return touchdownMs(plan) ?? 0;
}
