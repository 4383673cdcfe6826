import { describe, expect, it } from "vitest";
import { aimOf, alongCurve, packForOf, placeWords } from "../../src/screens/packfor.ts";

describe("the packer's dial", () => {
  it("goes from likely to the surest with the plan's wish in its place", () => {
    expect(alongCurve(0.9).map((place) => placeWords(place, 0.9))).toEqual([
      "likely",
      "50 %",
      "80 %",
      "wish 90 %",
      "95 %",
      "surest 99 %",
    ]);
    expect(alongCurve(0.93).map((place) => placeWords(place, 0.93))).toContain("wish 93 %");
  });

  it("asks the packer for what stands on it", () => {
    expect(aimOf(packForOf("likely"))).toEqual({ aim: "likely" });
    expect(aimOf(packForOf("wish"))).toEqual({ aim: "wish" });
    expect(aimOf(packForOf("0.95"))).toEqual({ aim: "wish", must: 0.95 });
  });
});
