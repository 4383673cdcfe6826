import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  framing,
  metTicks,
  panned,
  revealing,
  timeScale,
  type TimeWindow,
  utcTicks,
  type WindowLimits,
  zoomed,
} from "../../src/editor/index.ts";

const limits: WindowLimits = { startS: -1800, endS: 90_000, leastS: 600 };
const windows = fc
  .tuple(
    fc.double({ min: -1800, max: 80_000, noNaN: true }),
    fc.double({ min: 600, max: 90_000, noNaN: true }),
  )
  .map(([startS, lengthS]): TimeWindow => panned({ startS, endS: startS + lengthS }, 0, limits));
const widths = fc.integer({ min: 200, max: 4000 });

function inside(window: TimeWindow): void {
  expect(window.startS).toBeGreaterThanOrEqual(limits.startS - 1e-6);
  expect(window.endS).toBeLessThanOrEqual(limits.endS + 1e-6);
}

describe("time scale", () => {
  it("x and at are each other's inverse", () => {
    fc.assert(
      fc.property(windows, widths, fc.double({ min: -1e5, max: 2e5, noNaN: true }), (window, width, atS) => {
        const scale = timeScale(window, width);
        expect(scale.at(scale.x(atS))).toBeCloseTo(atS, 4);
      }),
    );
  });

  it("a zoom leaves the time under the pointer where it is, unless a limit stops it", () => {
    fc.assert(
      fc.property(
        windows,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        (window, share, factor) => {
          const aboutS = window.startS + share * (window.endS - window.startS);
          const next = zoomed(window, aboutS, factor, limits);
          inside(next);
          const free = next.startS > limits.startS + 1e-6 && next.endS < limits.endS - 1e-6;
          if (free) expect((aboutS - next.startS) / (next.endS - next.startS)).toBeCloseTo(share, 6);
          expect(next.endS - next.startS).toBeGreaterThanOrEqual(limits.leastS - 1e-6);
        },
      ),
    );
  });

  it("a pan keeps the length and stops at the limits", () => {
    fc.assert(
      fc.property(windows, fc.double({ min: -2e5, max: 2e5, noNaN: true }), (window, byS) => {
        const next = panned(window, byS, limits);
        inside(next);
        expect(next.endS - next.startS).toBeCloseTo(window.endS - window.startS, 4);
      }),
    );
  });

  it("frames what it is asked to show, and reveals it with the least movement", () => {
    const shown = framing([{ startS: 7200, endS: 32_400 }], 0.05, limits);
    expect(shown.startS).toBeCloseTo(7200 - 1260, 6);
    expect(shown.endS).toBeCloseTo(32_400 + 1260, 6);
    expect(revealing(shown, { startS: 20_000, endS: 21_000 }, limits)).toBe(shown);
    const moved = revealing(shown, { startS: 40_000, endS: 41_000 }, limits);
    expect(moved.endS).toBeGreaterThan(41_000);
    expect(moved.startS).toBeLessThan(40_000);
    // An EVA that is seen whole stays so, however little air is about it.
    expect(revealing(shown, { startS: 7200, endS: 32_400 }, limits)).toBe(shown);
  });
});

describe("ticks", () => {
  it("stand at human steps, ascending, inside the window, never closer than asked", () => {
    fc.assert(
      fc.property(windows, widths, fc.integer({ min: 30, max: 120 }), (window, width, least) => {
        const scale = timeScale(window, width);
        const touchdownMs = Date.UTC(2031, 3, 5, 6, 7);
        for (const ticks of [metTicks(scale, least), utcTicks(scale, touchdownMs, least)]) {
          ticks.forEach((tick, i) => {
            expect(tick.atS).toBeGreaterThanOrEqual(window.startS - 1);
            expect(tick.atS).toBeLessThanOrEqual(window.endS + 1);
            const before = ticks[i - 1];
            if (before) expect(scale.x(tick.atS) - scale.x(before.atS)).toBeGreaterThanOrEqual(least - 1);
          });
        }
      }),
    );
  });

  it("mission time is counted from touchdown, universal time from round clock times", () => {
    const scale = timeScale({ startS: 0, endS: 4 * 3600 }, 800);
    expect(metTicks(scale, 150).map((tick) => tick.label)).toEqual(["0:00", "1:00", "2:00", "3:00", "4:00"]);
    const labels = utcTicks(scale, Date.UTC(2031, 3, 5, 6, 7), 150).map((tick) => tick.label);
    expect(labels).toEqual(["07:00", "08:00", "09:00", "10:00"]);
    // Touchdown at 06:07: midnight is 17 h 53 min later, and carries the day; three days on 800 px leave room for every half of one.
    const days = utcTicks(timeScale({ startS: 0, endS: 3 * 86_400 }, 800), Date.UTC(2031, 3, 5, 6, 7), 100);
    expect(days.map((tick) => tick.atS)).toEqual([21_180, 64_380, 107_580, 150_780, 193_980, 237_180]);
    expect(days.map((tick) => tick.major)).toEqual([false, true, false, true, false, true]);
  });
});
