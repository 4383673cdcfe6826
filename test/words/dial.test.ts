import { describe, expect, it } from "vitest";
import { petTicks, timeScale } from "../../src/editor/index.ts";
import { clockText } from "../../src/words/index.ts";

describe("the dial", () => {
  const phases = [
    { eva: "a", name: "EVA 1", startS: 3600, endS: 7200 },
    { eva: "b", name: "EVA 2", startS: 5400, endS: 9000 },
  ];
  const dial = { kind: "pet" as const, touchdownMs: Date.UTC(2031, 3, 5, 6, 7), phases };

  it("reads phase time from the egress of the EVA that is asked for, else of the first under way, by name", () => {
    expect(clockText(dial, 6000, "b")).toBe("0:10");
    expect(clockText(dial, 6000)).toBe("EVA 1 0:40");
    expect(clockText(dial, 8000)).toBe("EVA 2 0:43:20");
    expect(clockText(dial, 600)).toBe("MET 0:10");
    expect(clockText({ ...dial, kind: "met" }, 6000, "b")).toBe("1:40");
    expect(clockText({ ...dial, kind: "utc" }, 3600, "b")).toBe("07:07");
  });

  it("puts a moment on the whole minute of its own clock on the side that is asked for", () => {
    // Touchdown at 06:07:20: 1:20:46 after it is 07:28:06.
    const late = { ...dial, touchdownMs: Date.UTC(2031, 3, 5, 6, 7, 20) };
    const both = (one: Parameters<typeof clockText>[0], eva: string | null) =>
      (["down", "up"] as const).map((side) => clockText(one, 4846, eva, side));
    expect(both({ ...late, kind: "met" }, null)).toEqual(["1:20", "1:21"]);
    expect(both({ ...late, kind: "utc" }, null)).toEqual(["07:28", "07:29"]);
    expect(both(late, "a")).toEqual(["0:20", "0:21"]);
    expect(both(late, null)).toEqual(["EVA 1 0:20", "EVA 1 0:21"]);
  });

  it("marks the axis once where two EVAs are out, each egress by its name", () => {
    const scale = timeScale({ startS: 0, endS: 10_800 }, 1080);
    const ticks = petTicks(scale, phases, 60);
    expect(ticks.map((one) => [one.atS, one.label])).toEqual([
      [3600, "EVA 1 0:00"],
      [4200, "0:10"],
      [4800, "0:20"],
      [5400, "0:30"],
      [6000, "0:40"],
      [6600, "0:50"],
      [7200, "1:00"],
      [7800, "0:40"],
      [8400, "0:50"],
      [9000, "1:00"],
    ]);
  });
});
