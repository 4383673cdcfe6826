import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";
import { breachesOf, only, pair } from "./pair.ts";
import { at, eva, remote, task, tinyPlan, type PlacementInput } from "./tinyPlan.ts";

type LinkInput = NonNullable<PlanInput["links"]>[number];
type LagInput = Extract<LinkInput, { type: "lag" }>;

const two = [task("first", "a"), task("second", "a")];
const plan = (links: LinkInput[], placements: PlacementInput[], tasks = two) =>
  tinyPlan({ tasks, placements, more: { links }, evas: [eva("eva-1"), eva("eva-2")] });

const lag = (more: Partial<LagInput>): LagInput => ({
  id: "link",
  type: "lag",
  from: { task: "first", end: "end" },
  to: { task: "second", end: "start" },
  needs: "none",
  ...more,
});

describe("link-lag", () => {
  // first runs 2000 to 2600; second starts at 3000: 400 s later.
  const placements = [at("first", 2000), at("second", 3000, ["ev2"])];
  pair("link-lag", {
    breaks: ["400 s, at least 401 s asked for", plan([lag({ leastS: 401 })], placements)],
    says: { need: 401, have: 400 },
    holds: ["400 s, at least 400 s asked for", plan([lag({ leastS: 400 })], placements)],
  });
  pair("link-lag", {
    breaks: ["400 s, at most 399 s asked for", plan([lag({ greatestS: 399 })], placements)],
    says: { need: 399, have: 400 },
    holds: ["400 s, at most 400 s asked for", plan([lag({ greatestS: 400 })], placements)],
  });
  // From first's start at 2000 to second's end at 3600: 1600 s.
  const outer = { from: { task: "first", end: "start" }, to: { task: "second", end: "end" } } as const;
  pair("link-lag", {
    breaks: ["start to end 1600 s, at least 1601 s", plan([lag({ ...outer, leastS: 1601 })], placements)],
    says: { need: 1601, have: 1600 },
    holds: [
      "start to end 1600 s exactly",
      plan([lag({ ...outer, leastS: 1600, greatestS: 1600 })], placements),
    ],
  });
  // second before first: 2000 - 3600 = -1600 s from second's end to first's start.
  const back = { from: { task: "second", end: "end" }, to: { task: "first", end: "start" } } as const;
  pair("link-lag", {
    breaks: ["a negative lag missed by a second", plan([lag({ ...back, leastS: -1599 })], placements)],
    says: { need: -1599, have: -1600 },
    holds: ["a negative lag met to the second", plan([lag({ ...back, leastS: -1600 })], placements)],
  });

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
  const alone = [at("second", 3000)];
  pair("link-needs", {
    breaks: ["the second is placed without the first", plan([lag({ needs: "from" })], alone)],
    holds: ["the first alone needs nothing", plan([lag({ needs: "from" })], [at("first", 2000)])],
  });
  pair("link-needs", {
    breaks: ["both asked for, only the first placed", plan([lag({ needs: "both" })], [at("first", 2000)])],
    holds: ["neither placed", plan([lag({ needs: "both" })], [])],
  });

  test("link-needs: none asks for nothing", () => {
    expect(breachesOf(plan([lag({ leastS: 0 })], alone))).toEqual([]);
  });
});

describe("link-crew", () => {
  const same: LinkInput = { id: "link", type: "crew", tasks: ["first", "second"], crew: "same" };
  const different: LinkInput = { ...same, crew: "different" };
  const byOne = [at("first", 2000), at("second", 3000)];
  const byTwo = [at("first", 2000), at("second", 3000, ["ev2"])];
  pair("link-crew", {
    breaks: ["same asked for, two different do them", plan([same], byTwo)],
    holds: ["the same does both", plan([same], byOne)],
  });
  pair("link-crew", {
    breaks: ["different asked for, one does both", plan([different], byOne)],
    holds: ["two different do them", plan([different], byTwo)],
  });

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
  const link: LinkInput = { id: "link", type: "eva", tasks: ["first", "second"] };
  pair("link-eva", {
    breaks: ["on two EVAs", plan([link], [at("first", 2000), at("second", 20_000, ["ev1"], "eva-2")])],
    holds: ["on one EVA", plan([link], [at("first", 2000), at("second", 20_000)])],
  });

  test("link-eva in words", () => {
    const lost = plan([link], [at("first", 2000), at("second", 20_000, ["ev1"], null)]);
    expect(only(lost, "link-eva").sentence).toBe(
      "first is on eva-1 and second on no EVA; they must be on the same EVA.",
    );
  });

  test("link-eva says nothing of remote work", () => {
    const mixed = [task("first", "a"), task("second", null)];
    expect(check(plan([link], [at("first", 2000), remote("second", 2000)], mixed)).findings).toEqual([]);
  });
});

describe("link-apart", () => {
  // a (300, 0) and c (0, 400) are 500 m apart; the second is carried from b to c, hypot(600, 400) = 721.1 m.
  const tasks = [task("first", "a"), task("second", "b", { endPlace: "c", duration: { likelyS: 722 } })];
  const placements = [at("first", 2000), at("second", 4000)];
  const link = (leastM: number): LinkInput => ({
    id: "link",
    type: "apart",
    tasks: ["first", "second"],
    leastM,
  });
  pair("link-apart", {
    breaks: ["500 m apart, 500.1 m asked for", plan([link(500.1)], placements, tasks)],
    says: { need: 500.1, have: 500 },
    holds: ["500 m apart, 500 m asked for", plan([link(500)], placements, tasks)],
  });

  test("link-apart says nothing of a task that is nowhere", () => {
    const nowhere = [task("first", "lander"), task("second", null)];
    expect(breachesOf(plan([link(500)], [at("first", 2000), remote("second", 0)], nowhere))).toEqual([]);
  });

  test("link-apart is tight within 5 %", () => {
    // 500 / 476.2 = 1.04998, 500 / 476.1 = 1.0502.
    expect(only(plan([link(476.2)], placements, tasks), "link-apart").level).toBe("tight");
    expect(check(plan([link(476.1)], placements, tasks)).findings).toEqual([]);
  });
});
