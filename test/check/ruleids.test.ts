import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { RULE_SENTENCES, RULE_WORDS } from "../../src/check/index.ts";
import { RULE_IDS, type RuleId } from "../../src/rules/index.ts";

const here = new URL("./", import.meta.url);
const tests = readdirSync(here)
  .filter((name) => name.endsWith(".test.ts") && name !== "ruleids.test.ts")
  .map((name) => readFileSync(new URL(name, here), "utf8"))
  .join("\n");
const law = readFileSync(new URL("../../src/plan/RULES.md", import.meta.url), "utf8");

/** Rule ids named in the first column of the table. */
const rows = [...law.matchAll(/^\| ([a-z0-9, -]+) \|/gm)]
  .flatMap((row) => row[1]!.split(","))
  .map((id) => id.trim())
  .filter((id) => id !== "id" && !/^-+$/.test(id));

describe("numbered rules, numbered tests", () => {
  test.each(RULE_IDS)("%s has a case that breaks it and one that just holds", (rule) => {
    const paired = tests.includes(`pair("${rule}", {`);
    const byHand = tests.includes(`test("${rule} breaks: `) && tests.includes(`test("${rule} just holds: `);
    expect(paired || byHand).toBe(true);
  });

  test("RULES.md has a row for every rule, and no other", () => {
    expect([...rows].sort()).toEqual([...RULE_IDS].sort());
  });

  test("the sentence that screens show is that of RULES.md", () => {
    for (const [, ids, sentence] of law.matchAll(/^\| ([a-z0-9, -]+?) +\| (.+?) +\| .*\|$/gm))
      for (const id of ids!.split(",").map((one) => one.trim()))
        if (rows.includes(id)) expect(RULE_SENTENCES[id as RuleId]).toBe(sentence);
  });

  test("every rule has words of its own", () => {
    expect(new Set(Object.values(RULE_WORDS)).size).toBe(RULE_IDS.length);
  });
});
