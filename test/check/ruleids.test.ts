import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { FLIGHT_RULES, RULE_IDS, ruleInWords } from "../../src/rules/index.ts";

const law = readFileSync(new URL("../../src/plan/RULES.md", import.meta.url), "utf8");

/** Rule ids named in the first column of the table. */
const rows = [...law.matchAll(/^\| ([a-z0-9, -]+) \|/gm)]
  .flatMap((row) => row[1]!.split(","))
  .map((id) => id.trim())
  .filter((id) => id !== "id" && !/^-+$/.test(id));

describe("numbered rules", () => {
  test("RULES.md has a row for every rule, and no other", () => {
    expect([...rows].sort()).toEqual([...RULE_IDS].sort());
  });

  const lines = [...law.matchAll(/^\| ([a-z0-9, -]+?) +\| (.+?) +\| (.*?) *\|$/gm)];
  const lineOf = (rule: string) => lines.find(([, ids]) => ids!.split(",").some((id) => id.trim() === rule));

  test.each(RULE_IDS)("the sentence of %s that screens show is that of RULES.md", (rule) => {
    expect(lineOf(rule)?.[2]).toBe(FLIGHT_RULES[rule].sentence);
  });

  test.each(RULE_IDS)("%s has its numbers where RULES.md says", (rule) => {
    const { numbers } = FLIGHT_RULES[rule];
    const groups = [...lineOf(rule)![3]!.matchAll(/rules\.(\w+)/g)].map(([, group]) => group);
    expect(groups).toEqual(numbers ? [numbers.group] : []);
  });

  test("every rule has words of its own", () => {
    expect(new Set(RULE_IDS.map((rule) => FLIGHT_RULES[rule].words)).size).toBe(RULE_IDS.length);
  });

  test("a name inside a sentence begins small, but for an abbreviation", () => {
    expect(ruleInWords("work-and-rest")).toBe("work and rest");
    expect(ruleInWords("eva-bounds")).toBe("EVA times");
    expect(ruleInWords("co2-reserve")).toBe("CO2 reserve");
    expect(ruleInWords("reserve")).toBe("reserves or the longest EVA");
    // What being late breaks is read behind "breaks".
    expect(ruleInWords("link-lag")).toBe("times between tasks");
  });
});
