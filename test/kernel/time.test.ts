import { describe, expect, it } from "vitest";
import { after, between, duration, instant } from "../../src/kernel/index.ts";

describe("time", () => {
  it("moves a point by a length and measures the length back", () => {
    expect(between(instant(120), after(instant(120), duration(45)))).toBe(45);
    expect(after(instant(120), duration(-200))).toBe(-80);
  });

  it("refuses what is not whole seconds and names the value", () => {
    expect(() => instant(1.5)).toThrow(/instant.*1\.5/);
    expect(() => duration(Number.NaN)).toThrow(/duration.*NaN/);
    expect(() => duration(2 ** 60)).toThrow(RangeError);
  });
});
