import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/duty.ts";
import { only } from "./pair.ts";

describe("EVA time in the stay", () => {
  test("duty is tight when less than the plan's time is to spare", () => {
    expect(only(plan(4900, 101), "duty").level).toBe("tight");
    expect(check(plan(4900, 100)).findings).toEqual([]);
  });
});
