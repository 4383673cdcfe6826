import { expect } from "vitest";
import type { Finding } from "../../src/answers/index.ts";
import { check } from "../../src/check/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import type { RuleId } from "../../src/rules/index.ts";

/** A rule's two cases: one that breaks it, with what the finding must say, and one that stands right at the limit. */
export interface Pair {
  /** What breaking it is; a breach when left out. */
  readonly level?: "open";
  readonly breaks: readonly [words: string, plan: Plan];
  /** Numbers of the breach, where the rule is about a quantity. */
  readonly says?: { readonly need: number; readonly have: number };
  /** Other rules that the breaking plan cannot help breaking. */
  readonly also?: readonly RuleId[];
  readonly holds: readonly [words: string, plan: Plan];
}

/** What a rule must have: a pair of cases, or one for each of its clauses. */
export type Pairs = readonly [Pair, ...Pair[]];

/** What is broken in `plan`, as rule ids. */
export function breachesOf(plan: Plan): RuleId[] {
  return check(plan)
    .findings.filter(({ level }) => level === "breach")
    .map((finding) => finding.rule);
}

/** The only finding of `rule`; fails the test when there is none or more than one. */
export function only(plan: Plan, rule: RuleId): Finding {
  const found = check(plan).findings.filter((finding) => finding.rule === rule);
  expect(found).toHaveLength(1);
  return found[0]!;
}
