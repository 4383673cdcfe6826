/** A share as a percentage, as the plan has it. */
export function percent(share: number): string {
  return `${Number((share * 100).toFixed(2))} %`;
}
