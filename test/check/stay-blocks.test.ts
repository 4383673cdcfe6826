import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/stay-blocks.ts";
import { breachesOf, only } from "./pair.ts";

describe("sleep and meals", () => {
  test("stay-blocks is about those who rest", () => {
    expect(breachesOf(plan(2000, 9000, ["ev2"]))).toEqual([]);
    expect(breachesOf(plan(2000, 9000, ["ev1"]))).toEqual(["stay-blocks"]);
  });

  test("stay-blocks is tight when a rest begins soon after ingress", () => {
    expect(only(plan(3600, 9000, [], 101), "stay-blocks")).toMatchObject({ level: "tight", have: 100 });
    expect(only(plan(3500, 9000, [], 101), "stay-blocks")).toMatchObject({ level: "tight", have: 0 });
    expect(check(plan(3600, 9000, [], 100)).findings).toEqual([]);
  });
});
