import { expect } from "vitest";
import type { Finding, FromAnswer } from "../../src/answers/index.ts";
import { fromWhat } from "../../src/engine/fromwhat/index.ts";
import type { Plan } from "../../src/plan/index.ts";

/** A figure's formula worked out from its inputs alone. */
export function workedOut({ formula, inputs }: FromAnswer["figures"][number]): number {
  const names = inputs.map((one) => one.name);
  const work = new Function(...names, `"use strict"; return ${formula};`) as (...values: number[]) => number;
  return work(...inputs.map((one) => one.value));
}

/** Where a number comes from nothing else: it was given, or it is of a pin, which compares two given ones. */
const ONLY_GIVEN: ReadonlySet<Finding["rule"]> = new Set(["pin"]);

/**
 * Asks from what a finding of the plan's own schedule comes, and holds the answer to it: what the formulas make of their inputs
 * alone is need and have, at least one of them is more than a number that was given, and what is no quantity has lines to look at.
 */
export function expectBehind(plan: Plan, { rule, subjects, need, have, sentence }: Finding): void {
  const answer = fromWhat(plan, plan.schedule, { what: "finding", rule, subjects });
  expect(answer?.says, sentence).toContain(sentence);
  const { figures, sums } = answer!;
  for (const figure of figures) near(workedOut(figure), figure.value, `${rule}: ${figure.of}, ${sentence}`);
  if (need === null || have === null) {
    expect(
      (sums?.rows.length ?? 0) + figures.length,
      `${rule}: nothing to look at, ${sentence}`,
    ).toBeGreaterThan(0);
    return;
  }
  const [first, second] = figures;
  near(first?.value ?? NaN, need, `${rule}: need, ${sentence}`);
  near(second?.value ?? NaN, have, `${rule}: have, ${sentence}`);
  const more = [first!, second!].filter(({ formula }) => formula !== "given");
  if (!ONLY_GIVEN.has(rule)) expect(more.length, `${rule}: all given, ${sentence}`).toBeGreaterThan(0);
}

/** Equal but for the noise of sums of floating point. */
function near(is: number, should: number, words: string): void {
  expect(Math.abs(is - should), `${words}: ${is} and not ${should}`).toBeLessThanOrEqual(
    1e-7 * Math.max(1, Math.abs(should)),
  );
}
