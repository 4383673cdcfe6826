import { gaitsOf } from "./gaits.ts";
import { waysOf } from "./ways.ts";

type WalkingPlan = Parameters<typeof gaitsOf>[0] & { readonly site: Parameters<typeof waysOf>[0] };

/** Seconds from one place of the plan to another at the planned gait, as judge and packer have them; null where there is no way. */
export function walkTimesOf(plan: WalkingPlan): (from: string, to: string) => number | null {
  const { index, size, durationS } = waysOf(plan.site, gaitsOf(plan).planned);
  return (from, to) => {
    const lengthS = durationS[(index.get(from) ?? -1) * size + (index.get(to) ?? -1)];
    return lengthS === undefined || lengthS < 0 ? null : lengthS;
  };
}
