import type { Caution, Step } from "../../src/plan/index.ts";

/** Steps of plain text, everybody's. */
export function stepsOf(...texts: readonly string[]): Step[] {
  return texts.map((text) => ({ text, cautions: [] }));
}

/** Cautions that nobody has classed. */
export function cautionsOf(...texts: readonly string[]): Caution[] {
  return texts.map((text) => ({ text }));
}
