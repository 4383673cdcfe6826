import { stepsOf } from "../../plan/lines.ts";
import { describe, expect, it } from "vitest";
import { check, type Departures, judgeFor } from "../../../src/check/index.ts";
import { booklets } from "../../../src/exchange/index.ts";
import { printedDay } from "../../../src/exchange/paper/leaving/printedday.ts";
import { instant } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { at, eva, place, task, tinyPlan, type TinyParts } from "../../check/tinyPlan.ts";
import { wordsOf } from "./reading.ts";

/** Printed departures, each a moment; "at once" where it is no more than the end of what is done before. */
const leaves = (plan: Plan, crew: string): Record<string, number | "at once"> =>
  Object.fromEntries(
    plan.tasks.flatMap(({ id }) => {
      const leave = printedDay(plan).leaves.get(crew)?.get(id);
      return leave === undefined ? [] : [[id, leave.kind === "by" ? leave.atS : "at once"]];
    }),
  );

const both = { crew: { count: 2 } };

/** Both work at a until 3000; then EV1 goes to b, 300 m on, for `startS`, and EV2 stays at a. */
const parting = (startS: number, greatestM: number, more: TinyParts = {}): Plan =>
  tinyPlan({
    evas: [eva("eva-1")],
    tasks: [task("first", "a", both), task("out", "b"), task("stay", "a", { duration: { likelyS: 1800 } })],
    placements: [at("first", 2400, ["ev1", "ev2"]), at("out", startS, ["ev1"]), at("stay", 3000, ["ev2"])],
    rules: { separation: { greatestM } },
    ...more,
  });

describe("LEAVE BY", () => {
  it("is the start less the way, on the whole minute before it, where nothing speaks against it", () => {
    // 300 s from a to b: 4530 - 300 = 4230 s, 1:10:30.
    expect(leaves(parting(4530, 5000), "ev1")).toMatchObject({ out: 4200 });
  });

  it("is at once where there is no whole minute in between", () => {
    // Egress work ends at 2100, the way to a takes 300 s.
    expect(leaves(parting(3310, 5000), "ev1")).toEqual({ first: "at once", out: "at once" });
  });

  it("holds two people together who go the same way", () => {
    // Both go from a to c, 500 m, for 6000: they may leave by 5500, 1:31. Alone, one at c and one at a are 500 m apart.
    const plan = (greatestM: number): Plan =>
      tinyPlan({
        evas: [eva("eva-1")],
        tasks: [task("first", "a", both), task("then", "c", both)],
        placements: [at("first", 2400, ["ev1", "ev2"]), at("then", 6000, ["ev1", "ev2"])],
        rules: { separation: { greatestM } },
      });
    expect(check(plan(400)).score.breaches).toBe(0);
    // Judged by itself, the day on which all leave at the last moment is sound: it is the mixture that breaks.
    const last = new Map([
      ["first", 2100],
      ["then", 5460],
    ]);
    const late: Departures = {
      leaveS: new Map(
        ["ev1", "ev2"].map((crew) => [crew, new Map([...last].map(([id, atS]) => [id, instant(atS)]))]),
      ),
    };
    expect(check(plan(400), plan(400).schedule, late).score.breaches).toBe(0);
    // At 1 m/s EV1 is 400 m on after 400 s: EV2 may stay 6 whole minutes, and the other way round.
    expect(leaves(plan(400), "ev1")).toMatchObject({ then: 3360 });
    expect(leaves(plan(400), "ev2")).toMatchObject({ then: 3360 });
    expect(leaves(plan(501), "ev1")).toMatchObject({ then: 5460 });
  });

  it("is before a partner elsewhere is too far away, and a minute later is too late", () => {
    // EV1 stays at a, EV2 walks from a to b, 300 m, at 3000, and both are done there at 6600. EV1 leaves for b later.
    const plan = tinyPlan({
      evas: [eva("eva-1")],
      tasks: [
        task("first", "a", both),
        task("ahead", "b", { duration: { likelyS: 3300 } }),
        task("late", "b"),
      ],
      placements: [at("first", 2400, ["ev1", "ev2"]), at("ahead", 3300, ["ev2"]), at("late", 6000, ["ev1"])],
      rules: { separation: { greatestM: 200 } },
    });
    expect(check(plan).score.breaches).toBe(0);
    // EV2 is 200 m ahead at 3200; to the whole minute before it, 3180.
    expect(leaves(plan, "ev1")).toMatchObject({ late: 3180 });
    const judged = (atS: number): number =>
      check(plan, plan.schedule, { leaveS: new Map([["ev1", new Map([["late", instant(atS)]])]]) }).score
        .breaches;
    expect(judged(3180)).toBe(0);
    expect(judged(3240)).toBe(1);
  });

  it("lets nobody stay where it has become hot", () => {
    const plan = parting(6000, 5000, {
      site: {
        keepOuts: [
          {
            id: "hot",
            name: "hot unit",
            kind: "hot",
            shape: { type: "disc", eastM: 300, northM: 0, radiusM: 20 },
            afterTask: "first",
            exemptTasks: ["stay"],
          },
        ],
      },
    });
    expect(leaves(plan, "ev1")).toMatchObject({ out: "at once" });
  });

  it("keeps the rest that the work limit needs, where it is printed", () => {
    // Egress at 1500. Out 1500 to 3300 is 1800 s of work; with 600 s of rest at b before 5400, 5400 - 600 - 300 = 4500.
    const plan = parting(5400, 5000, { rules: { work: { longestS: 3300, restS: 600 } } });
    expect(leaves(plan, "ev1")).toMatchObject({ out: 4500 });
    expect(printedDay(plan).rests.filter(({ crew }) => crew === "ev1")).toMatchObject([
      { crew: "ev1", before: "out", places: ["b"], needS: 600, span: { startS: 4800, endS: 5400 } },
    ]);
    const words = booklets(plan, check(plan), { crew: ["ev1"] }).pages.map(wordsOf);
    expect(words.find((page) => page.includes("at a glance"))).toContain(
      "1:20 REST 10 min, b 1:30 1:30 2 out",
    );
    expect(words.some((page) => page.includes("LEAVE HERE BY 1:15"))).toBe(true);
    expect(words.find((page) => page.startsWith("2 out"))).toContain("REST 10 min, b until 1:30");
  });

  it("counts a rule that is a warning like any other", () => {
    const rules = { separation: { greatestM: 200, level: "warning" as const } };
    const plan = tinyPlan({
      evas: [eva("eva-1")],
      tasks: [task("first", "a", both), task("then", "b", both)],
      placements: [at("first", 2400, ["ev1", "ev2"]), at("then", 6000, ["ev1", "ev2"])],
      rules,
    });
    expect(leaves(plan, "ev1")).toMatchObject({ then: 3180 });
  });

  it("lets nobody pass a corner of a way at a moment between that is too far from a partner", () => {
    // The straight way from the lander to b is closed: it leads by c, 400 m and 361 m. EV2 goes to d, 300 m the other way, is
    // there from 1500 to 1560 and comes back. From c to d are 700 m, from b to d 583 m.
    const plan = tinyPlan({
      places: [place("lander", 0, 0), place("b", 300, 200), place("c", 0, 400), place("d", 0, -300)],
      site: {
        keepOuts: [
          {
            id: "pit",
            name: "pit",
            kind: "walking",
            shape: { type: "disc", eastM: 150, northM: 100, radiusM: 40 },
          },
        ],
      },
      evas: [eva("eva-1")],
      tasks: [task("go", "b"), task("near", "lander"), task("far", "d", { duration: { likelyS: 60 } })],
      placements: [at("go", 4000), at("near", 600, ["ev2"]), at("far", 1500, ["ev2"])],
      rules: { separation: { greatestM: 650 } },
    });
    const played = (leaveS: number): number =>
      check(plan, plan.schedule, { leaveS: new Map([["ev1", new Map([["go", instant(leaveS)]])]]) }).score
        .breaches;
    // At once (600) EV1 is at c at 1000, at the last moment (3239) at 3639: both are sound. Leaving at 1100 is not.
    expect([600, 3180, 1100].map(played)).toEqual([0, 0, 1]);
    // As EV2 gets to d at 1500, EV1 must be 101 m past c, at (84, 344), 650 m away: leaves by 999, to the minute 0:16.
    expect(leaves(plan, "ev1")).toMatchObject({ go: 960 });
  });

  it("does not make worse what the day breaks anyway", () => {
    // EV2 at the lander, EV1 at b: 600 m apart whatever they do; at once EV1 comes from a when EV2 is at the lander.
    const plan = parting(6000, 250);
    const worst = (departures?: Departures): number =>
      Math.max(
        ...check(plan, plan.schedule, departures)
          .findings.filter(({ rule }) => rule === "crew-separation")
          .map(({ have }) => have ?? 0),
      );
    const day = printedDay(plan);
    const played: Departures = {
      leaveS: new Map([["ev1", new Map([["out", day.leaves.get("ev1")!.get("out")!.atS]])]]),
    };
    expect(worst()).toBeGreaterThan(250);
    expect(worst(played)).toBeLessThanOrEqual(worst());
  });

  it("is judged walk by walk for heat: at once after walks that began late", () => {
    const judge = judgeFor(hotWalks());
    expect(judge(hotWalks().schedule).score.breaches).toBe(0);
    // Everybody late is sound, everybody at once is sound; the first late and the second at once is not.
    const of = (moments: Record<string, number>): number =>
      judge(hotWalks().schedule, {
        leaveS: new Map([["ev1", new Map(Object.entries(moments).map(([id, atS]) => [id, instant(atS)]))]]),
      }).score.breaches;
    expect(of({ two: 4080, three: 6480 })).toBe(0);
    expect(of({ two: 4080 })).toBe(1);
    expect(leaves(hotWalks(), "ev1")).toMatchObject({ two: "at once", three: "at once" });
  });
});

/**
 * EV1 alone, from the lander to a and back. The cooling carries off 300 W: a way of 300 s leaves some 170 kJ in the body,
 * work of 205 W and what its suit needs none, and 1500 s of standing carry off as much as a way has left. 250 kJ may be stored.
 */
function hotWalks(): Plan {
  return tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
    tasks: [task("one", "lander"), task("two", "a"), task("three", "lander")].map((one) => ({
      ...one,
      effort: { watts: 205 },
    })),
    placements: [at("one", 2000), at("two", 4400), at("three", 6800)],
    suit: { coolingW: 300 },
    rules: { walking: { metabolicW: 700 }, heat: { mostKjKg: 250 / 80 } },
  });
}

describe("egress and ingress on paper", () => {
  /** First start 2010 + 300 s of way + 600 s airlock: egress 1110 s, 0:18:30. Last end 4040, home 600 + 600: 5240, 1:27:20. */
  const plan = (more: Parameters<typeof eva>[1] = {}): Plan =>
    tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"], ...more })],
      tasks: [task("one", "a"), task("two", "b")],
      placements: [at("one", 2010), at("two", 3440)],
    });
  const ends = (of: Plan): (number | undefined)[] => [
    printedDay(of).egressS.get("eva-1"),
    printedDay(of).ingressS.get("eva-1"),
  ];

  it("are the begun minute before and after, judged so", () => {
    expect(ends(plan())).toEqual([1080, 5280]);
  });

  it("stand with their seconds where a whole minute would break a rule", () => {
    expect(ends(plan({ earliestEgressS: 1081 }))).toEqual([1110, 5280]);
    expect(ends(plan({ latestIngressS: 5279 }))).toEqual([1080, 5240]);
    // 1110 to 5240 is 4130 s; from 1080 it is 4160 s, to 5280 it would be 4200 s.
    expect(ends(plan({ longestS: 4199 }))).toEqual([1080, 5240]);
    const words = booklets(plan({ longestS: 4199 }), check(plan({ longestS: 4199 })), { crew: ["ev1"] })
      .pages.map(wordsOf)
      .join(" ");
    expect(words).toMatch(/OUT 0:18 HATCH SHUT 1:27:20 /);
  });
});

describe("notes", () => {
  it("are printed after the steps and run on to a page of their own where they are long", () => {
    const notes = Array.from({ length: 90 }, (_, i) => `Note ${i + 1} on how it came to be.`).join("\n");
    const plan = tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"] })],
      tasks: [task("one", "a", { steps: stepsOf("Look about"), notes })],
      placements: [at("one", 2000)],
    });
    const pages = booklets(plan, check(plan)).pages.filter(({ name }) =>
      /: one( \(continued\))?$/.test(name),
    );
    expect(pages.length).toBeGreaterThan(1);
    const words = pages.map(wordsOf).join(" ");
    expect([...words.matchAll(/Note (\d+) on/g)].map((match) => Number(match[1]))).toEqual(
      Array.from({ length: 90 }, (_, i) => i + 1),
    );
    expect(words.indexOf("Look about")).toBeLessThan(words.indexOf("NOTES"));
  });
});
