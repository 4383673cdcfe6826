import { describe, expect, it } from "vitest";
import { secondsIn, span } from "../../../src/screens/fields/timeentry.ts";
import { underHead } from "../../../src/screens/setup/sheetheads.ts";

const under = (unit: string, text: string): string => underHead(text, { text: "Likely", column: 3, unit });

describe("what stands under a head that names a unit", () => {
  it("is in that unit where it is a bare number", () => {
    expect(secondsIn(under("min", "25"))).toBe(1500);
    expect(secondsIn(under("h", "1.5"))).toBe(5400);
  });

  it("is refused where it is two numbers under minutes, which may be hours or minutes", () => {
    const guide = { low: 0, high: null } as Parameters<typeof span.read>[2];
    const read = (text: string) => span.read(text, {} as never, guide);
    expect(read("25:00")).toEqual({ ok: true, value: 90_000 });
    expect(read(under("min", "25:00"))).toEqual({ ok: false, error: "Write 1:30, 90 min or 45 s." });
    // Under hours, with three numbers, and with no hours there is one way to read it.
    expect(read(under("h", "1:30"))).toEqual({ ok: true, value: 5400 });
    expect(read(under("min", "0:25:00"))).toEqual({ ok: true, value: 1500 });
    expect(read(under("min", "0:25"))).toEqual({ ok: true, value: 1500 });
  });
});
