import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/return-mass.ts";
import { only } from "./pair.ts";

describe("return mass", () => {
  test("return-mass is tight within 5 % and told in the verdict", () => {
    // 5 / 5.26 = 95.06 %; 5 / 5.27 = 94.9 %.
    expect(only(plan(5.26), "return-mass").level).toBe("tight");
    expect(check(plan(5.27)).findings).toEqual([]);
    expect(check(plan(5.27)).returnKg).toBe(5);
  });
});
