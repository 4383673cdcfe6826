import type { OddsReport } from "../../answers/index.ts";
import type { Shape } from "../../kernel/index.ts";
import type { OddsChoice } from "../../session/index.ts";

/** How many days are simulated, by choice. */
export const DAYS: readonly number[] = [500, 2000, 10_000];
/** How durations spread between low and high, by choice. */
export const SHAPES: readonly { readonly id: Shape; readonly name: string }[] = [
  { id: "pert", name: "PERT" },
  { id: "triangular", name: "triangular" },
];
export const LARGEST_SEED = 4_294_967_295;
/** What is chosen before anybody has. */
export const FIRST_CHOICE: OddsChoice = { days: 2000, seed: 1, shape: "pert" };

/** A spread as it is called. */
export function shapeWords(shape: Shape): string {
  return SHAPES.find((one) => one.id === shape)?.name ?? shape;
}

/** Whether a report is what these settings give. */
export function isOfChoice({ days, seed, shape }: OddsReport, choice: OddsChoice): boolean {
  return days === choice.days && seed === choice.seed && shape === choice.shape;
}
