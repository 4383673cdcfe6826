import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  clockText,
  grouped,
  lasts,
  left,
  met,
  needed,
  percentLeft,
  petTicks,
  signed,
  timeScale,
  utc,
  utcDay,
} from "../../src/editor/index.ts";

describe("clock", () => {
  it("shows mission elapsed time with seconds only where there are any", () => {
    expect(met(0)).toBe("0:00");
    expect(met(4 * 3600 + 17 * 60)).toBe("4:17");
    expect(met(4 * 3600 + 17 * 60 + 30)).toBe("4:17:30");
    expect(met(-1800)).toBe("−0:30");
  });

  it("shows universal time from the touchdown epoch", () => {
    const touchdownMs = Date.UTC(2031, 3, 5, 22, 30);
    expect(utc(touchdownMs, 0)).toBe("22:30");
    expect(utc(touchdownMs, 5400)).toBe("00:00");
    expect(utcDay(touchdownMs, 5400)).toBe("6 Apr");
  });

  it("rounds what is needed up and what is left down", () => {
    expect(needed(61)).toBe("2 min");
    expect(left(119)).toBe("1 min");
    expect(needed(3660)).toBe("1:01");
    expect(left(-61)).toBe("−2 min");
    expect(left(59.9)).toBe("59 s");
    expect(needed(3599)).toBe("1:00");
  });

  it("never shows a margin larger than it is", () => {
    expect(percentLeft(0.0699)).toBe("6 %");
    expect(percentLeft(0.07)).toBe("7 %");
    expect(percentLeft(-0.001)).toBe("−1 %");
    fc.assert(
      fc.property(fc.integer({ min: -20_000, max: 20_000 }), (tenThousandths) => {
        const shown = Number(
          percentLeft(tenThousandths / 10_000)
            .replace("−", "-")
            .replace(" %", ""),
        );
        expect(shown).toBe(Math.floor(tenThousandths / 100));
      }),
    );
  });

  it("groups thousands and signs differences", () => {
    expect(grouped(1234567)).toBe("1\u202f234\u202f567");
    expect(grouped(-12)).toBe("−12");
    expect(signed(0)).toBe("0");
    expect(signed(1200)).toBe("+1\u202f200");
    expect(signed(-3)).toBe("−3");
  });
});

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

  it("lengths are whole minutes, rounded up", () => {
    expect(lasts(1501)).toBe("26 min");
    expect(lasts(3541)).toBe("1:00");
    expect(lasts(0)).toBe("0 min");
    expect(lasts(5400)).toBe("1:30");
  });
});
