import { describe, expect, it } from "vitest";
import { minuteOf } from "../../src/screens/minute.ts";

const outings = [
  { span: { startS: 4800, endS: 28_800 } },
  { span: { startS: 90_000, endS: 110_000 } },
] as unknown as Parameters<typeof minuteOf>[1];
const view = (cursorS: number | null, minuteS: number | null, startS: number, endS: number) => ({
  ...{ cursorS, minuteS },
  window: { startS, endS },
});

describe("the minute of line and map", () => {
  it("is the one under the pointer", () => {
    expect(minuteOf(view(5000, 6000, 0, 30_000), outings)).toBe(5000);
  });

  it("is else the last one while the window shows it", () => {
    expect(minuteOf(view(null, 6000, 0, 30_000), outings)).toBe(6000);
  });

  it("goes along to another EVA with the window, to its egress", () => {
    expect(minuteOf(view(null, 6000, 88_000, 112_000), outings)).toBe(90_000);
    expect(minuteOf(view(null, null, 88_000, 112_000), outings)).toBe(90_000);
  });

  it("is the first in sight in the midst of an EVA", () => {
    expect(minuteOf(view(null, 6000, 95_000, 99_000), outings)).toBe(95_000);
  });

  it("stays where the window shows nobody out", () => {
    expect(minuteOf(view(null, 6000, 40_000, 50_000), outings)).toBe(6000);
    expect(minuteOf(view(null, null, 40_000, 50_000), outings)).toBe(4800);
    expect(minuteOf(view(null, null, 0, 1000), [])).toBe(0);
  });
});
