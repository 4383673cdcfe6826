import { expect, test } from "vitest";
import type { Finding } from "../../src/answers/index.ts";
import { check } from "../../src/check/index.ts";
import { duration } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import type { RuleId } from "../../src/rules/index.ts";
import { expectBehind } from "../engine/behind.ts";

/** A rule's two cases: one that breaks it, with what the finding must say, and one that stands right at the limit. */
interface Cases {
  readonly breaks: readonly [words: string, plan: Plan];
  /** Numbers of the breach, where the rule is about a quantity. */
  readonly says?: { readonly need: number; readonly have: number };
  /** Other rules that the breaking plan cannot help breaking. */
  readonly also?: readonly RuleId[];
  readonly holds: readonly [words: string, plan: Plan];
}

/** Two tests: `breaks` has exactly one breach, of `rule`, that leads to the sums behind it; `holds` has no breach at all. */
export function pair(rule: RuleId, { breaks, says, also, holds }: Cases): void {
  test(`${rule} breaks: ${breaks[0]}`, () => {
    const breaches = check(breaks[1]).findings.filter(({ level }) => level === "breach");
    expect(breaches.map((finding) => finding.rule)).toEqual(expect.arrayContaining([rule, ...(also ?? [])]));
    expect(breaches).toHaveLength(1 + (also ?? []).length);
    const own = breaches.find((finding) => finding.rule === rule);
    if (says) expect({ need: own?.need, have: own?.have }).toEqual(says);
    expect(own?.sentence).toMatch(/^\S.*\.$/);
    // "How it is worked out" leads to the sums behind both numbers.
    if (own) expectBehind(breaks[1], own);
  });
  test(`${rule} just holds: ${holds[0]}`, () => {
    expect(breachesOf(holds[1])).toEqual([]);
    // Right at the limit is still not over it when every margin counts as tight.
    const { rules } = holds[1];
    const near = { ...rules, tightS: duration(3600), reserve: { ...rules.reserve, tight: 0.5 } };
    expect(breachesOf({ ...holds[1], rules: near })).toEqual([]);
  });
}

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
