import { describe, expect, test } from "vitest";
import { check, type Departures, judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { at, eva, remote, task, tinyPlan, type TinyParts } from "./tinyPlan.ts";

/** `crew` leaves for `task` at `atS`. */
const leaving = (crew: string, forTask: string, atS: number): Departures => ({
  leaveS: new Map([[crew, new Map([[forTask, instant(atS)]])]]),
});

const stretches = (plan: Plan, departures: Departures, crew = "ev1") =>
  check(plan, plan.schedule, departures)
    .outings.find((one) => one.crew === crew)!
    .stretches.map(({ kind, span, path }) => [kind, span.startS, span.endS, path.join(" ")]);

const breaches = (plan: Plan, departures?: Departures) =>
  check(plan, plan.schedule, departures).findings.filter(({ level }) => level === "breach");

/** EV1: `one` at a from 2000 to 2600, `two` at b from 4000; a to b takes 300 s. */
const pair = (parts: TinyParts = {}): Plan =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("one", "a"), task("two", "b")],
    placements: [at("one", 2000), at("two", 4000)],
    ...parts,
  });

describe("a day played to departures (S10)", () => {
  test("stays until the moment given, walks, and waits for the rest", () => {
    expect(stretches(pair(), leaving("ev1", "two", 3000)).slice(2, 6)).toEqual([
      ["task", 2000, 2600, "a"],
      ["wait", 2600, 3000, "a"],
      ["traverse", 3000, 3300, "a b"],
      ["wait", 3300, 4000, "b"],
    ]);
  });

  test("leaves at once for a moment before the work is done, and in time for one that is too late", () => {
    const atOnce = stretches(pair(), {});
    expect(stretches(pair(), leaving("ev1", "two", 100))).toEqual(atOnce);
    expect(stretches(pair(), leaving("ev1", "two", 9000)).slice(3, 5)).toEqual([
      ["wait", 2600, 3700, "a"],
      ["traverse", 3700, 4000, "a b"],
    ]);
  });

  test("says the same as without departures where none are given", () => {
    const judge = judgeFor(pair());
    expect(judge(pair().schedule, {})).toEqual(judge(pair().schedule));
  });

  test("draws as much in the end: the same pause, elsewhere", () => {
    const before = check(pair()).margins.map(({ margin }) => margin);
    const played = check(pair(), pair().schedule, leaving("ev1", "two", 3700));
    expect(played.margins.map(({ margin }) => margin)).toEqual(before);
  });

  test("crew-separation counts where somebody still stays", () => {
    // EV2 leaves a with EV1 at 2600; at b they are together from 2900. EV1 leaves at 3700 only: 300 m apart.
    const plan = pair({
      evas: [eva("eva-1")],
      tasks: [task("one", "a", { crew: { count: 2 } }), task("two", "b", { crew: { count: 2 } })],
      placements: [at("one", 2000, ["ev1", "ev2"]), at("two", 4000, ["ev1", "ev2"])],
      rules: { separation: { greatestM: 299 } },
    });
    expect(breaches(plan)).toEqual([]);
    const [found, ...more] = breaches(plan, leaving("ev1", "two", 3700));
    expect(more).toEqual([]);
    expect(found).toMatchObject({ rule: "crew-separation", need: 299, have: 300 });
  });

  test("hot-keep-out: nobody stays inside once it is hot, not even who made it so", () => {
    const plan = pair({
      site: {
        keepOuts: [
          {
            id: "hot",
            name: "the hot unit",
            kind: "hot",
            shape: { type: "disc", eastM: 300, northM: 0, radiusM: 20 },
            afterTask: "one",
          },
        ],
      },
    });
    expect(breaches(plan)).toEqual([]);
    // Hot as the work ends at 2600: a second more is a second inside.
    expect(breaches(plan, leaving("ev1", "two", 2600))).toEqual([]);
    const [found, ...more] = breaches(plan, leaving("ev1", "two", 2601));
    expect(more).toEqual([]);
    expect(found).toMatchObject({ rule: "hot-keep-out", span: { startS: 2600, endS: 2601 } });
    expect(found?.sentence).toBe(
      "EV1 stays at a until 0:43:21 MET, inside the hot unit, which is hot from 0:43:20 MET.",
    );
  });

  test("hot-keep-out: who stays until the second in which the heat comes has left in time", () => {
    const plan = pair({
      tasks: [task("one", "a"), task("two", "b"), task("spark", null)],
      placements: [at("one", 2000), at("two", 4000), remote("spark", 2400)],
      site: {
        keepOuts: [
          {
            id: "hot",
            name: "the hot unit",
            kind: "hot",
            shape: { type: "disc", eastM: 300, northM: 0, radiusM: 20 },
            afterTask: "spark",
          },
        ],
      },
    });
    // Hot from 3000 on.
    expect(breaches(plan, leaving("ev1", "two", 3000))).toEqual([]);
    expect(breaches(plan, leaving("ev1", "two", 3001))).toMatchObject([{ rule: "hot-keep-out" }]);
  });

  test("work-and-rest: a pause before leaving is no rest, what is left of it at the other end is one", () => {
    // At once: 600 + 300 + 600 + 300 = 1800 s of work, then 1100 s at b. Leaving at 3100 leaves 600 s, the whole rest,
    // and the first stretch lasts from 1100 to 3400.
    const plan = (longestS: number): Plan => pair({ rules: { work: { longestS, restS: 600 } } });
    expect(breaches(plan(2300), leaving("ev1", "two", 3100))).toEqual([]);
    expect(breaches(plan(2299), leaving("ev1", "two", 3100))).toMatchObject([
      { rule: "work-and-rest", need: 2299, have: 2300 },
    ]);
    // A second later there is no rest at all: 1100 to 4000 + 600 + 600 + 600 = 5800.
    expect(breaches(plan(2300), leaving("ev1", "two", 3101))).toMatchObject([
      { rule: "work-and-rest", have: 4700 },
    ]);
  });

  test("walk-back-consumables: staying far out is tested against what is left when they leave", () => {
    // From b, 600 m out, EV1 comes back to a. The later they leave b, the less is left for the 600 s home.
    const far = (oxygenKg: number): Plan =>
      pair({
        tasks: [task("one", "b"), task("two", "a")],
        suit: { oxygenKg, reserve: { oxygen: 0 } },
        // Walking back in a hurry draws more than the walk to a does.
        rules: { walkback: { metabolicW: 1200 } },
        placements: [at("one", 2000), at("two", 12_000, ["ev1"])],
      });
    const [least, most] = [0.1, 3];
    /** The least oxygen with which nothing is broken, to a microgram. */
    const needed = (departures: Departures): number => {
      let [low, high] = [least, most];
      while (high - low > 1e-6) {
        const middle = (low + high) / 2;
        const broken = breaches(far(middle), departures).some(({ rule }) => rule === "walk-back-consumables");
        if (broken) low = middle;
        else high = middle;
      }
      return high;
    };
    expect(needed(leaving("ev1", "two", 11_700))).toBeGreaterThan(needed({}));
  });

  test("an earlier egress and a later ingress are judged; a later egress and an earlier ingress change nothing", () => {
    // First start 2000, way 300, airlock 600: egress 1100. Last end 4600, way 600, airlock 600: ingress 5800.
    const span = (departures: Departures) =>
      check(pair(), pair().schedule, departures).outings.map((one) => [one.span.startS, one.span.endS]);
    const given = (egress: number, ingress: number): Departures => ({
      egressS: new Map([["eva-1", instant(egress)]]),
      ingressS: new Map([["eva-1", instant(ingress)]]),
    });
    expect(span({})).toEqual([[1100, 5800]]);
    expect(span(given(1080, 5820))).toEqual([[1080, 5820]]);
    expect(span(given(1101, 5799))).toEqual([[1100, 5800]]);
    const bounded = pair({ evas: [eva("eva-1", { crew: ["ev1"], earliestEgressS: 1090 })] });
    expect(breaches(bounded, given(1090, 5800))).toEqual([]);
    expect(breaches(bounded, given(1089, 5800))).toMatchObject([{ rule: "eva-bounds" }]);
  });
});

describe("rests that the work limit relies on", () => {
  // 600 airlock, 300 walk, 600 work at a; 700 s pause; 600 work; 700 s pause; 600 work, 300 home, airlock 600.
  const plan = (longestS: number): Plan =>
    tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"] })],
      tasks: [task("one", "a"), task("two", "a"), task("three", "a")],
      placements: [at("one", 2000), at("two", 3300), at("three", 4600)],
      rules: { work: { longestS, restS: 600 } },
    });
  const rests = (longestS: number) =>
    check(plan(longestS)).rests.map(({ span, needS, places, before }) => [
      span.startS,
      span.endS,
      needS,
      places.join(" "),
      before,
    ]);

  test("are none where the whole outing is no longer than the limit", () => {
    // 1100 to 6100.
    expect(rests(5000)).toEqual([]);
  });

  test("are the last that come in time", () => {
    // Without the second pause 1100 to 6100 is a second too long; work up to it lasts 1100 to 3900, 2800 s.
    expect(rests(4999)).toEqual([[3900, 4600, 600, "a", "three"]]);
    expect(rests(2800)).toEqual([[3900, 4600, 600, "a", "three"]]);
    // A second less, and the first is needed: 1100 to 3900 is too long, and so is 3300 to 6100.
    expect(rests(2799)).toEqual([
      [2600, 3300, 600, "a", "two"],
      [3900, 4600, 600, "a", "three"],
    ]);
  });
});
