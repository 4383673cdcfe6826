import { describe, expect, test } from "vitest";
import { amount, counted, kilograms, lasting, listed, met, metres } from "../../src/check/phrases.ts";

describe("numbers as a planner reads them", () => {
  test("times", () => {
    expect(met(0)).toBe("0:00 MET");
    expect(met(5700)).toBe("1:35 MET");
    expect(met(5701)).toBe("1:35:01 MET");
    expect(met(-600)).toBe("-0:10 MET");
  });

  test("lengths of time: what is available down, what is needed up", () => {
    expect(lasting(3900, "up")).toBe("1:05");
    expect(lasting(779, "down")).toBe("12 min");
    expect(lasting(779, "up")).toBe("13 min");
    expect(lasting(40, "down")).toBe("40 s");
    expect(lasting(3599, "up")).toBe("1:00");
    expect(lasting(-1, "down")).toBe("no time");
  });

  test("distances and amounts", () => {
    expect(metres(850, "up")).toBe("850 m");
    expect(metres(91.44, "down")).toBe("91.4 m");
    expect(metres(1234, "up")).toBe("1.24 km");
    expect(metres(1239, "down")).toBe("1.23 km");
    // 0.29 * 100 is 28.999999999999996 in binary: still 0.29.
    expect(amount(0.29, "kg", "down")).toBe("0.290 kg");
    expect(amount(0.0209709, "kg", "down")).toBe("0.020 kg");
    expect(amount(9.84, "Wh", "up")).toBe("9.9 Wh");
    expect(kilograms(4350)).toBe("4.35 kg");
  });

  test("counts and lists", () => {
    expect(counted(1, "crew member")).toBe("1 crew member");
    expect(counted(2, "crew member")).toBe("2 crew members");
    expect(listed(["a", "b", "c"])).toBe("a, b and c");
    expect(listed([])).toBe("");
  });
});
