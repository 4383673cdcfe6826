import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/one-at-a-time.ts";
import { breachesOf, only } from "./pair.ts";
import { at, eva, task, tinyPlan } from "./tinyPlan.ts";

describe("one task at a time", () => {
  test("one-at-a-time tells an overlap", () => {
    expect(only(plan(2400), "one-at-a-time").sentence).toBe(
      "EV1: two starts at 0:40 MET, before one ends at 0:43:20 MET.",
    );
  });

  test("one-at-a-time: a long task clashes with everything inside it, not only with the next", () => {
    const nested = tinyPlan({
      tasks: [
        task("long", "a", { duration: { likelyS: 5000 } }),
        task("short", "a", { duration: { likelyS: 100 } }),
        task("other", "a", { duration: { likelyS: 100 } }),
      ],
      placements: [at("long", 2000), at("short", 2500), at("other", 6900)],
    });
    expect(breachesOf(nested)).toEqual(["one-at-a-time", "one-at-a-time"]);
  });

  test("one-at-a-time: a task is held to that one before it which ends last, whichever came just before or first", () => {
    const lasts = (id: string, likelyS: number) => task(id, "a", { duration: { likelyS } });
    const nested = tinyPlan({
      tasks: [lasts("first", 600), lasts("long", 5000), lasts("short", 100), lasts("last", 100)],
      placements: [at("first", 2000), at("long", 3000), at("short", 4000), at("last", 7900)],
    });
    const found = check(nested).findings.filter(({ rule }) => rule === "one-at-a-time");
    expect(found.map(({ subjects, have }) => [subjects[1]?.id, subjects[2]?.id, have])).toEqual(
      expect.arrayContaining([
        ["long", "short", -4000],
        ["long", "last", -100],
      ]),
    );
    expect(found).toHaveLength(2);
  });

  test("one-at-a-time: an outing is held to that one before it which ends last", () => {
    // Out 900 s before the task, in 900 s after it: 1100 to 3500, 4100 to 10,900, 5100 to 6900, 10,800 to 12,600.
    const found = check(
      tinyPlan({
        evas: ["eva-1", "eva-2", "eva-3", "eva-4"].map((id) => eva(id, { crew: ["ev1"] })),
        tasks: [600, 5000, 0, 0].map((likelyS, k) => task(`t${k}`, "a", { duration: { likelyS } })),
        placements: [2000, 5000, 6000, 11_700].map((startS, k) =>
          at(`t${k}`, startS, ["ev1"], `eva-${k + 1}`),
        ),
        rules: { recharge: { level: "warning" } },
      }),
    ).findings.filter(({ rule }) => rule === "one-at-a-time");
    expect(found.map(({ subjects, have }) => [subjects[1]?.id, subjects[2]?.id, have])).toEqual(
      expect.arrayContaining([
        ["eva-2", "eva-3", -5800],
        ["eva-2", "eva-4", -100],
      ]),
    );
    expect(found).toHaveLength(2);
  });

  test("one-at-a-time: a task of no length at the start of the next is before it", () => {
    const mark = tinyPlan({
      tasks: [task("a-work", "a"), task("mark", "a", { duration: { likelyS: 0 } })],
      placements: [at("a-work", 2000), at("mark", 2000)],
    });
    expect(breachesOf(mark)).toEqual([]);
  });

  test("one-at-a-time: two crew members at the same time is no clash", () => {
    const both = tinyPlan({
      tasks: [task("one", "a"), task("two", "b")],
      placements: [at("one", 2000), at("two", 2000, ["ev2"])],
    });
    expect(breachesOf(both)).toEqual([]);
  });
});
