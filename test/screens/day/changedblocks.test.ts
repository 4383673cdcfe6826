import { describe, expect, it } from "vitest";
import type { Block } from "../../../src/editor/index.ts";
import { changedBlocks } from "../../../src/screens/day/changedblocks.ts";

const block = (task: string, startS: number, lane = "ev1", eva = "eva-1"): Block => ({
  task,
  lane,
  eva,
  startS,
  endS: startS + 600,
  homeStartS: 0,
  homeEndS: 0,
  crew: [lane],
  row: 0,
});
const names = (found: ReturnType<typeof changedBlocks>) => found.map(({ block }) => block.task);

describe("what has changed on the line", () => {
  const before = [block("same", 1000), block("little", 2000), block("far", 3000), block("swapped", 4000)];

  it("is what is new, on another lane, or moved by so much: with where it was", () => {
    const now = [
      block("same", 1000),
      block("little", 2599),
      block("far", 3600),
      block("swapped", 4000, "ev2"),
      block("new", 5000),
    ];
    const found = changedBlocks(before, now, 600);
    expect(names(found)).toEqual(["far", "swapped", "new"]);
    expect(found.map(({ was }) => was?.startS ?? null)).toEqual([3000, 4000, null]);
    expect(names(changedBlocks(before, now, 1))).toEqual(["little", "far", "swapped", "new"]);
  });

  it("is a task that goes out on another EVA at the same time of it", () => {
    expect(names(changedBlocks(before, [block("same", 1000, "ev1", "eva-2")], 600))).toEqual(["same"]);
  });

  it("is nothing where the day is the same", () => {
    expect(changedBlocks(before, before, 1)).toEqual([]);
  });
});
