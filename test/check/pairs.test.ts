import { describe, expect, test } from "vitest";
import type { Finding } from "../../src/answers/index.ts";
import { check } from "../../src/check/index.ts";
import { duration } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { RULE_IDS } from "../../src/rules/index.ts";
import { expectBehind } from "../engine/behind.ts";
import { CASES } from "./cases/index.ts";

/** Findings of `plan` that say that something is broken: breaches, and what is left open. */
function broken(plan: Plan): Finding[] {
  return check(plan).findings.filter(({ level }) => level === "breach" || level === "open");
}

describe.each(RULE_IDS)("%s", (rule) => {
  for (const { level = "breach", breaks, says, also = [], holds } of CASES[rule]) {
    // What breaks it has exactly one breach, of the rule, that leads to the sums behind it.
    test(`${rule} breaks: ${breaks[0]}`, () => {
      const found = broken(breaks[1]);
      expect(found.map((finding) => finding.rule)).toEqual(expect.arrayContaining([rule, ...also]));
      expect(found).toHaveLength(1 + also.length);
      const own = found.find((finding) => finding.rule === rule)!;
      expect(own.level).toBe(level);
      if (says) expect({ need: own.need, have: own.have }).toEqual(says);
      expect(own.sentence).toMatch(/^\S.*\.$/);
      // "How it is worked out" leads to the sums behind both numbers.
      expectBehind(breaks[1], own);
    });

    test(`${rule} just holds: ${holds[0]}`, () => {
      expect(broken(holds[1])).toEqual([]);
      // Right at the limit is still not over it when every margin counts as tight.
      const { rules } = holds[1];
      const near = { ...rules, tightS: duration(3600), reserve: { ...rules.reserve, tight: 0.5 } };
      expect(broken({ ...holds[1], rules: near })).toEqual([]);
    });
  }
});
