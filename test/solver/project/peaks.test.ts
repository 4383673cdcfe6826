import { describe, expect, it } from "vitest";
import { OUTSIDE, Peaks } from "../../../src/solver/project/peaks.ts";
import { projectFrom } from "../../../src/solver/project/problem.ts";

const open = [{ from: 0, to: 20 }];

describe("Peaks", () => {
  // Four holes with one kind of drill, of which there are three: A (1 drill) 0..4, B (2) 0..2, C (1) 4..6, D (3) 6..8.
  // In use: 3 until 2, then 1 until 6, then 3 until 8.
  const project = projectFrom({
    lengths: [4, 2, 2, 2],
    capacities: [3],
    demands: [[1], [2], [1], [3]],
    lags: [],
    openings: [open, open, open, open],
  });
  const start = Int32Array.from([0, 0, 4, 6]);
  const peaks = new Peaks(project);
  const at = (share: number): number[] => {
    peaks.read(start, share);
    return Array.from({ length: 9 }, (_, t) => peaks.peakAt(t));
  };

  it("are the two stretches of full use when only full use counts, and differ in number", () => {
    const found = at(1);
    expect(found.map((peak) => peak !== OUTSIDE)).toEqual([
      true,
      true,
      false,
      false,
      false,
      false,
      true,
      true,
      false,
    ]);
    expect(found[0]).toBe(found[1]);
    expect(found[6]).toBeGreaterThan(found[0]!);
  });

  it("run together into one when a third of it is enough", () => {
    expect(new Set(at(0.33).slice(0, 8)).size).toBe(1);
  });

  it("weigh a scarce resource more than an ample one", () => {
    // Six units of work on one winch against one unit on one lamp: the lamp's hour is no peak.
    const two = projectFrom({
      lengths: [6, 1],
      capacities: [1, 1],
      demands: [
        [1, 0],
        [0, 1],
      ],
      lags: [],
      openings: [open, open],
    });
    const unlike = new Peaks(two);
    unlike.read(Int32Array.from([1, 0]), 0.6);
    expect(unlike.peakAt(0)).toBe(OUTSIDE);
    expect(unlike.peakAt(1)).not.toBe(OUTSIDE);
  });
});
