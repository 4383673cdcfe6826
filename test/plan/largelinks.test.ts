import { describe, expect, it } from "vitest";
import { random } from "../../src/kernel/index.ts";
import { linksOf } from "../../src/plan/large/links.ts";
import type { TaskInput } from "../../src/plan/large/parts.ts";

function task(id: string, place: string, must: boolean): TaskInput {
  return {
    id,
    name: id,
    kind: "survey",
    place,
    duration: { likelyS: 600 },
    effort: "geology",
    must,
  };
}

describe("links of a made plan", () => {
  it("are as many as there are pairs where more are asked for, and as many as are asked for else", () => {
    // Two of the optional ones lie in one district, and so do three must-do ones: one pair and three.
    const tasks = [
      task("a", "rim-1", true),
      task("b", "rim-2", true),
      task("c", "floor-1", false),
      task("d", "rim-3", true),
      task("e", "rim-1", false),
      task("f", "floor-2", false),
    ];
    const ends = (count: number): string[] =>
      linksOf(random(1), count, tasks).map(({ id }) => id.replace("-then-", "-"));
    expect(ends(10).sort()).toEqual(["a-b", "a-d", "b-d", "c-f"]);
    expect(ends(2)).toHaveLength(2);
    expect(linksOf(random(1), 3, [])).toEqual([]);
  });
});
