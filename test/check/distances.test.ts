import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/distances.ts";
import { only } from "./pair.ts";

describe("distance walked", () => {
  test("eva-distance is tight within 5 % of the limit", () => {
    // 1300 / 1368 = 95.03 %; 1300 / 1369 = 94.96 %.
    expect(only(plan(1368, 9999, 100), "eva-distance").level).toBe("tight");
    expect(check(plan(1369, 9999, 100)).findings).toEqual([]);
  });

  test("stay-distance is tight within 5 % of the limit", () => {
    // 2500 / 2631 = 95.02 %; 2500 / 2632 = 94.98 %.
    expect(only(plan(9999, 2631, 100), "stay-distance").level).toBe("tight");
    expect(check(plan(9999, 2632, 100)).findings).toEqual([]);
  });

  test("eva-distance counts a part of a metre inside a task as a whole one", () => {
    expect(only(plan(1300, 9999, 100.2), "eva-distance")).toMatchObject({ level: "breach", have: 1301 });
  });
});
