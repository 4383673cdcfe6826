import type { Plan } from "../../src/plan/index.ts";
import type { WalkS } from "../../src/rehearsal/index.ts";
import { gaitsOf, waysOf } from "../../src/terrain/index.ts";

/** Walking times of a plan as judge and packer have them. */
export function walksOf(plan: Plan): WalkS {
  const { index, size, durationS } = waysOf(plan.site, gaitsOf(plan).planned);
  return (from, to) => {
    const lengthS = durationS[(index.get(from) ?? -1) * size + (index.get(to) ?? -1)];
    return lengthS === undefined || lengthS < 0 ? null : lengthS;
  };
}
