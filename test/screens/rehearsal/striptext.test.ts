import { describe, expect, it } from "vitest";
import { stripText } from "../../../src/screens/rehearsal/striptext.ts";

const TEXTS = ["25 Sealed gas sample", "25"];

describe("what is written into a bar of the strips", () => {
  it("is the whole name where it has room, else the number, else nothing", () => {
    expect(stripText(TEXTS, 100, 160, 0)).toEqual({ text: "25 Sealed gas sample", x: 105 });
    expect(stripText(TEXTS, 100, 80, 0)).toEqual({ text: "25", x: 105 });
    expect(stripText(TEXTS, 100, 15, 0)).toBeNull();
  });

  it("stands beside the line of the clock, never under it", () => {
    expect(stripText(TEXTS, 100, 200, 130)).toEqual({ text: "25 Sealed gas sample", x: 135 });
    expect(stripText(TEXTS, 100, 200, 260)).toEqual({ text: "25 Sealed gas sample", x: 105 });
    expect(stripText(TEXTS, 100, 160, 180)).toEqual({ text: "25", x: 105 });
    // Past the bar it is in nobody's way.
    expect(stripText(TEXTS, 100, 160, 260)).toEqual({ text: "25 Sealed gas sample", x: 105 });
  });
});
