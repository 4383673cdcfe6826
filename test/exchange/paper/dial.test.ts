import { describe, expect, it } from "vitest";
import { clockHour, fromShadowDeg } from "../../../src/exchange/paper/dial.ts";

/** With the sun in the east, at 90 degrees, a shadow points west, at 270. */
const east = { azimuthDeg: 90, elevationDeg: 10 };

describe("the way home from one's shadow", () => {
  it("is counted clockwise from it, from 0 to less than 360 degrees", () => {
    const bearings = [270, 0, 90, 180, 269, 271];
    expect(bearings.map((bearing) => fromShadowDeg(bearing, east))).toEqual([0, 90, 180, 270, 359, 1]);
    // The sun a little west of north: the shadow points to 170.
    expect(fromShadowDeg(0, { ...east, azimuthDeg: 350 })).toBe(190);
  });

  it("is told where a shadow shows it: the sun known, half a degree up at the least and 75 at the most, and a bearing there", () => {
    const under = (elevationDeg: number) => fromShadowDeg(270, { ...east, elevationDeg });
    expect([0.4, 0.5, 75, 76].map(under)).toEqual([null, 0, 0, null]);
    expect(fromShadowDeg(270, null)).toBeNull();
    expect(fromShadowDeg(Number.NaN, east)).toBeNull();
  });

  it("is said as the nearest hour of a clock's face", () => {
    expect([0, 14, 16, 90, 344, 346].map(clockHour)).toEqual([12, 12, 1, 3, 11, 12]);
  });
});
