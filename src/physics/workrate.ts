/**
 * Metabolic rate of surface work in pressure suits.
 *
 * Source: mean rates measured over 14 outings in 1/6 g, NASA SP-368 (1975) sec. II ch. 4, category values from
 * memory; the mean of all, 234 kcal/h over 158.76 h, also NASA TN D-7883 Table I.
 * Range: means of whole outings. Not covered: a single task, which may differ by 25 % (observed 100 to 500 kcal/h),
 * and differences between people, for which there is the factor.
 * Rest: 1.5 W per kg of a 77 kg body, the standing term of Pandolf, Givoni & Goldman 1977.
 */
const WATTS_PER_KCAL_H = 4184 / 3600;

/** kcal/h by category of work. */
export const MEASURED_KCAL_H = {
  "egress-ingress": 270,
  deployment: 244,
  geology: 244,
  riding: 123,
  overall: 234,
  rest: 100,
} as const;

/** A category of measured rates, or a rate given in watts. */
export type Effort = keyof typeof MEASURED_KCAL_H | { readonly watts: number };

/** Metabolic rate in W of `effort` by somebody whose rates are `factor` times the mean. */
export function metabolicW(effort: Effort, factor: number): number {
  const meanW = typeof effort === "object" ? effort.watts : MEASURED_KCAL_H[effort] * WATTS_PER_KCAL_H;
  return meanW * factor;
}
