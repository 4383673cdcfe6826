import { describe, expect, it } from "vitest";
import { tickLabel } from "../../../src/screens/parts/ticklabel.ts";

describe("the name of a tick", () => {
  it("stands behind its line, and before it where the picture ends too soon for it", () => {
    expect(tickLabel(100, 400)).toEqual({ x: 103, textAnchor: "start" });
    expect(tickLabel(360, 400)).toEqual({ x: 363, textAnchor: "start" });
    expect(tickLabel(361, 400)).toEqual({ x: 358, textAnchor: "end" });
    expect(tickLabel(399, 400)).toEqual({ x: 396, textAnchor: "end" });
  });
});
