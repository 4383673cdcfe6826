import { isEqual } from "../kernel/index.ts";
import type { Plan } from "./plan.ts";
import { REMARKS } from "./remarks.ts";

/** Words and variants: an answer about a day does not depend on them. */
const APART: readonly string[] = [
  "title",
  "notes",
  "revision",
  "procedures",
  "variants",
  "schedule",
  ...REMARKS,
];

/** True when both plans are the same but for words, variants and the schedule. */
export function sameFrame(a: Plan, b: Plan): boolean {
  return a === b || isEqual(frameOf(a), frameOf(b));
}

function frameOf(plan: Plan): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(plan).filter(([key]) => !APART.includes(key)));
}
