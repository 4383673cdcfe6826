import { describe, expect, it } from "vitest";
import {
  exactly,
  hourMinute,
  kilograms,
  metresUp,
  minutesDown,
  minutesUp,
  percentDown,
  utcClock,
  utcDate,
} from "../../../src/exchange/paper/wording.ts";

describe("rounding on paper is to the side that keeps a margin", () => {
  it("counts moments down", () => {
    expect([0, 59, 60, 5999, 79_260].map(hourMinute)).toEqual(["0:00", "0:00", "0:01", "1:39", "22:01"]);
    expect([-1, -60, -61].map(hourMinute)).toEqual(["-0:01", "-0:01", "-0:02"]);
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
    expect(utcClock(epochMs, 1799)).toBe("23:59");
    expect(utcDate(epochMs, 1800)).toBe("1 Jan 2032 00:00");
  });
});
