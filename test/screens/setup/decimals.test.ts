import { describe, expect, it } from "vitest";
import type { Line } from "../../../src/screens/fields/table.ts";
import { decimalsOf, roomAfter } from "../../../src/screens/setup/decimals.ts";

const line = (...shown: (string | null)[]): Line =>
  ({ cells: shown.map((one) => (one === null ? null : { shown: one })) }) as unknown as Line;

describe("numbers of a column", () => {
  it("have as many digits behind the point as the one that has most, which times and words have none of", () => {
    expect(
      decimalsOf([line("6.2", "0:09", "Sealed 1.5"), line("8", "1:20", ""), line("−0.25", "", null)], 3),
    ).toEqual([2, 0, 0]);
  });

  it("get the room of the point and the digits that they lack", () => {
    expect(roomAfter("8", 1)).toBe(".0");
    expect(roomAfter("6.2", 2)).toBe("0");
    expect(roomAfter("6.25", 2)).toBe("");
    expect(roomAfter("", 2)).toBe("");
    expect(roomAfter("any", 2)).toBe("");
  });
});
