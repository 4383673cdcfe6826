import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import {
  clock,
  exactly,
  kilograms,
  latest,
  metresUp,
  minutesDown,
  minutesUp,
  percentDown,
  utcClock,
  utcDate,
  windowWords,
} from "../../../src/exchange/paper/wording.ts";

describe("rounding on paper is to the side that keeps a margin", () => {
  it("prints a moment of the day as it is, with its seconds where it has any", () => {
    expect([0, 59, 60, 5999, 79_260].map(clock)).toEqual(["0:00", "0:00:59", "0:01", "1:39:59", "22:01"]);
    expect([-1, -60, -61].map(clock)).toEqual(["-0:00:01", "-0:01", "-0:01:01"]);
  });

  it("counts a limit down, but not past what is planned", () => {
    const of = (limitS: number, plannedS: number | null): string =>
      clock(latest(instant(limitS), plannedS === null ? null : instant(plannedS)));
    expect([7199, 7200, 7259, -1].map((limitS) => of(limitS, null))).toEqual([
      "1:59",
      "2:00",
      "2:00",
      "-0:01",
    ]);
    expect(of(7199, 7140)).toBe("1:59");
    expect(of(7199, 7141)).toBe("1:59:59");
    // Planned too late anyway: the limit keeps to the safe side.
    expect(of(7199, 7200)).toBe("1:59");
  });

  it("prints a window on whole minutes inside it, and never one that the task it is for sticks out of", () => {
    // 2:00:01 to 3:59:59; the task lies inside 2:01 to 3:59.
    const window = { startS: 7201, endS: 14_399 };
    expect(windowWords(window, { startS: 7260, endS: 14_340 })).toBe("2:01 to 3:59");
    // A second earlier, or a second later, and whole minutes would leave it out.
    expect(windowWords(window, { startS: 7259, endS: 14_340 })).toBe("2:00:01 to 3:59:59");
    expect(windowWords(window, { startS: 7260, endS: 14_341 })).toBe("2:00:01 to 3:59:59");
  });

  it("counts walks, loads and distances up, and what is left down", () => {
    expect([0, 1, 60, 61].map(minutesUp)).toEqual(["0 min", "1 min", "1 min", "2 min"]);
    expect([59, 60, 119, -1].map(minutesDown)).toEqual(["0 min", "1 min", "1 min", "-1 min"]);
    expect([0.1 + 0.2, 1.61, 5].map(kilograms)).toEqual(["0.3 kg", "1.7 kg", "5 kg"]);
    expect([12.1, 12].map(metresUp)).toEqual(["13 m", "12 m"]);
    expect([0.29, 0.2999, -0.001].map(percentDown)).toEqual(["29 %", "29 %", "-1 %"]);
  });

  it("gives lengths in full", () => {
    expect([40, 1500, 1530].map(exactly)).toEqual(["40 s", "25 min", "25 min 30 s"]);
  });

  it("crosses midnight UTC", () => {
    const epochMs = Date.parse("2031-12-31T23:30:00Z");
    expect(utcClock(epochMs, 1740)).toBe("23:59");
    expect(utcClock(epochMs, 1799)).toBe("23:59:59");
    expect(utcDate(epochMs, 1800)).toBe("1 Jan 2032 00:00");
  });
});
