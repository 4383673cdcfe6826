import { describe, expect, it } from "vitest";
import { findingWords, numberedSentence } from "../../src/words/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { samplePlan } from "../exchange/samplePlan.ts";

const plan = (...names: readonly (readonly [number: string, name: string])[]) => {
  const [task] = samplePlan().tasks;
  return { tasks: names.map(([number, name]) => ({ ...task!, id: `t${number}`, number, name })) };
};

const groupOf = (...tasks: string[]): Plan["groups"][number] => ({
  id: "either",
  name: "Either",
  tasks,
  least: 0,
  most: 1,
  shares: [],
});

describe("a sentence with numbers", () => {
  it("has the number before each name that it says, the longer name first", () => {
    const two = plan(["3", "Core"], ["7", "Core at the rim (deep)"]);
    expect(numberedSentence(two, "Core at the rim (deep) ends after Core begins.")).toBe(
      "7 Core at the rim (deep) ends after 3 Core begins.",
    );
  });

  it("numbers whole names only, and only those asked for", () => {
    const two = plan(["3", "Core"], ["4", "Rake"]);
    expect(numberedSentence(two, "Scores of Corers: Core.")).toBe("Scores of Corers: 3 Core.");
    expect(numberedSentence(two, "Rake, then Core.", ["t3"])).toBe("Rake, then 3 Core.");
    expect(numberedSentence(two, "Nobody.")).toBe("Nobody.");
    expect(numberedSentence(plan(["5", "Swap a-b (c+d)? [e]/f|g"]), "Swap a-b (c+d)? [e]/f|g.")).toBe(
      "5 Swap a-b (c+d)? [e]/f|g.",
    );
  });

  it("has both numbers for a name that two of those asked for have: which one is meant nobody can tell", () => {
    const two = plan(["3", "Core"], ["8", "Core"]);
    expect(numberedSentence(two, "Core waits.")).toBe("3 or 8 Core waits.");
    expect(numberedSentence(two, "Core waits.", ["t8"])).toBe("8 Core waits.");
  });

  it("of a finding has the numbers of the tasks that it is about, and of those of a group", () => {
    const two = { ...plan(["3", "Core"], ["7", "Rake"], ["9", "Dig"]), groups: [groupOf("t3", "t7")] };
    const of = (kind: string, id: string) => ({
      subjects: [{ kind, id }],
      sentence: "At most 1: Core, Rake and Dig.",
    });
    expect(findingWords(two, of("task", "t7"))).toBe("At most 1: Core, 7 Rake and Dig.");
    expect(findingWords(two, of("group", "either"))).toBe("At most 1: 3 Core, 7 Rake and Dig.");
    expect(findingWords(two, of("group", "another"))).toBe("At most 1: Core, Rake and Dig.");
  });

  it("numbers no name that has its number, and is not misled by another's", () => {
    const two = plan(["3", "Core"], ["8", "Core"]);
    expect(numberedSentence(two, "It needs 8 Core, then Core.")).toBe("It needs 8 Core, then 3 or 8 Core.");
    expect(numberedSentence(two, "3 Core waits 18 Core.")).toBe("3 Core waits 18 3 or 8 Core.");
  });
});
