import { describe, expect, it } from "vitest";
import { REMOTE } from "../../../../src/editor/index.ts";
import { findingFrame } from "../../../../src/screens/day/line/paintfindings.ts";

/** How high the level edges of a frame lie. */
const edges = (key: string, sense: "up" | "down", topPx: number): readonly number[] =>
  findingFrame({ key, sense, topPx, heightPx: 100 }, 10, 50).flatMap(([, y], i, all) =>
    y === all[i + 1]?.[1] ? [y] : [],
  );

describe("the frame about a chosen finding", () => {
  it("has no edge on the line home, where names of joint tasks stand", () => {
    // Two lanes about the line home at 100.
    expect(edges("ev1", "up", 0)).toEqual([2]);
    expect(edges("ev2", "down", 100)).toEqual([197]);
    // Its sides come to that line, so that those of a pair are one frame.
    for (const [key, sense, topPx] of [
      ["ev1", "up", 0],
      ["ev2", "down", 100],
    ] as const)
      expect(findingFrame({ key, sense, topPx, heightPx: 100 }, 10, 50).map(([, y]) => y)).toContain(100);
  });

  it("goes all round work by command", () => {
    expect(edges(REMOTE, "down", 200)).toEqual([297, 202]);
  });
});
