import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/container.ts";
import { breachesOf, only } from "./pair.ts";

describe("sample container", () => {
  test("container is tight within 5 % by mass or by volume, and names the one it is", () => {
    // 3 / 3.15 = 95.2 %, 3 / 3.2 = 93.75 %; 3.3 / 3.47 = 95.1 %, 3.3 / 3.48 = 94.8 %.
    expect(only(plan(3.15, 9), "container")).toMatchObject({ level: "tight", unit: "kg", have: 3 });
    expect(only(plan(9, 3.47), "container")).toMatchObject({ level: "tight", unit: "L", have: 3.3 });
    expect(check(plan(3.2, 3.48)).findings).toEqual([]);
  });

  test("container names both mass and volume in one finding", () => {
    expect(breachesOf(plan(2, 2))).toEqual(["container"]);
    expect(only(plan(2, 2), "container").sentence).toBe(
      "box holds 3 kg of samples and takes 2 kg and 3.3 L of samples and takes 2 L.",
    );
  });
});
