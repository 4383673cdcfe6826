import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import {
  alone,
  apart,
  apartPlaced,
  apartTasks,
  back,
  byOne,
  byTwo,
  different,
  lag,
  onOneEva,
  placements,
  plan,
  same,
} from "./cases/links.ts";
import { breachesOf, only } from "./pair.ts";
import { at, remote, task } from "./tinyPlan.ts";

describe("link-lag", () => {
  test("link-lag says nothing while one of the two is on the bench", () => {
    expect(breachesOf(plan([lag({ leastS: 9999 })], [at("first", 2000)]))).toEqual([]);
  });

  test("link-lag: a circle of links that nobody can keep is a breach, not a crash", () => {
    const circle = [
      lag({ id: "there", leastS: 0 }),
      lag({
        id: "back",
        ...{ from: { task: "second", end: "end" }, to: { task: "first", end: "start" } },
        leastS: 0,
      }),
    ];
    expect(breachesOf(plan(circle, placements))).toEqual(["link-lag"]);
  });

  test("link-lag in words", () => {
    expect(only(plan([lag({ leastS: 900 })], placements), "link-lag").sentence).toBe(
      "second starts 6 min after the end of first; it must be 15 min after it at the earliest.",
    );
    expect(only(plan([lag({ greatestS: 0 })], placements), "link-lag").sentence).toBe(
      "second starts 7 min after the end of first; it must not be later.",
    );
    // 2000 - 3600 = -1600 s: 26 min 40 s before, called 26 where too little is at hand, 27 where it is too late.
    expect(only(plan([lag({ ...back, leastS: -1500 })], placements), "link-lag").sentence).toBe(
      "first starts 27 min before the end of second; it must be 25 min before it at the earliest.",
    );
    expect(only(plan([lag({ ...back, greatestS: -1700 })], placements), "link-lag").sentence).toBe(
      "first starts 26 min before the end of second; it must be 29 min before it at the latest.",
    );
    const touching = [at("first", 2000), at("second", 2600)];
    expect(only(plan([lag({ leastS: 60 })], touching), "link-lag").sentence).toBe(
      "second starts at the end of first; it must be 1 min after it at the earliest.",
    );
  });
});

describe("link-needs", () => {
  test("link-needs: none asks for nothing", () => {
    expect(breachesOf(plan([lag({ leastS: 0 })], alone))).toEqual([]);
  });
});

describe("link-crew", () => {
  test("link-crew in words", () => {
    expect(only(plan([same], byTwo), "link-crew").sentence).toBe(
      "first is done by EV1 and second by EV2; they must be the same.",
    );
    expect(only(plan([different], byOne), "link-crew").sentence).toBe(
      "EV1 does both first and second; they must share nobody.",
    );
  });

  test("link-crew: some of two are not the same as both", () => {
    const pairTask = [task("first", "a", { crew: { count: 2 } }), task("second", "a")];
    expect(
      breachesOf(plan([same], [at("first", 2000, ["ev1", "ev2"]), at("second", 3000)], pairTask)),
    ).toEqual(["link-crew"]);
  });
});

describe("link-eva", () => {
  test("link-eva in words", () => {
    const lost = plan([onOneEva], [at("first", 2000), at("second", 20_000, ["ev1"], null)]);
    expect(only(lost, "link-eva").sentence).toBe(
      "first is on eva-1 and second on no EVA; they must be on the same EVA.",
    );
  });

  test("link-eva says nothing of remote work", () => {
    const mixed = [task("first", "a"), task("second", null)];
    expect(check(plan([onOneEva], [at("first", 2000), remote("second", 2000)], mixed)).findings).toEqual([]);
  });
});

describe("link-apart", () => {
  test("link-apart says nothing of a task that is nowhere", () => {
    const nowhere = [task("first", "lander"), task("second", null)];
    expect(breachesOf(plan([apart(500)], [at("first", 2000), remote("second", 0)], nowhere))).toEqual([]);
  });

  test("link-apart is tight within 5 %", () => {
    // 500 / 476.2 = 1.04998, 500 / 476.1 = 1.0502.
    expect(only(plan([apart(476.2)], apartPlaced, apartTasks), "link-apart").level).toBe("tight");
    expect(check(plan([apart(476.1)], apartPlaced, apartTasks)).findings).toEqual([]);
  });
});
