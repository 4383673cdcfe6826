import { describe, expect, it } from "vitest";
import { pointsLost } from "../../../src/screens/variants/comparison.tsx";

describe("a change of a margin in points", () => {
  it("never says that less is lost than is, nor that more is gained", () => {
    expect(pointsLost(-0.012)).toBe("−2 pts");
    expect(pointsLost(-0.01)).toBe("−1 pt");
    expect(pointsLost(0.019)).toBe("+1 pt");
    expect(pointsLost(0.02)).toBe("+2 pts");
  });

  it("has no number where less than one is lost, and is nothing where less than one is gained", () => {
    expect(pointsLost(-0.0098)).toBe("<1 pt");
    expect(pointsLost(-0.0001)).toBe("<1 pt");
    expect(pointsLost(0.009)).toMatch(/^0/);
  });
});
