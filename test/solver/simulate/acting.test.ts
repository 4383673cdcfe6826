import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CrewRules } from "../../../src/answers/index.ts";
import { check } from "../../../src/check/index.ts";
import { duration, instant } from "../../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../../src/plan/index.ts";
import { greedy } from "../../../src/solver/index.ts";
import { CARRIES_ON, acting } from "../../../src/solver/simulate/crew.ts";
import { type DaySample, sampleFor } from "../../../src/solver/simulate/days.ts";
import { BROKEN_OFF, DONE, MISSED } from "../../../src/solver/simulate/outcome.ts";
import { Player } from "../../../src/solver/simulate/player.ts";
import { scriptOf, type Script } from "../../../src/solver/simulate/script.ts";
import { allHome } from "../../../src/solver/simulate/tally.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";
import { randomPlan } from "../../properties/randomPlan.ts";

/** A day of `script` on which everything takes its likely time at the planned rate, but for what `more` says. */
function likely(script: Script, more: Readonly<Record<number, number>> = {}): DaySample {
  const draws = sampleFor(script.problem);
  for (const a of script.order) draws.durationS[a] = more[a] ?? script.problem.lengthS[a]!;
  return draws;
}

function played(
  plan: Plan,
  schedule: Schedule,
  crew: CrewRules,
  more: Readonly<Record<string, number>> = {},
) {
  const script = scriptOf(plan, schedule);
  const player = new Player(script, crew);
  player.take();
  const number = (id: string): number => plan.tasks.findIndex((one) => one.id === id);
  const lengths = Object.fromEntries(Object.entries(more).map(([id, seconds]) => [number(id), seconds]));
  player.play(likely(script, lengths));
  return {
    player,
    state: (id: string) => player.state[number(id)],
    start: (id: string) => player.startS[number(id)],
    end: (id: string) => player.endS[number(id)],
  };
}

const A = (id: string, more = {}) => task(id, "a", { crew: { named: ["ev1"] }, ...more });

describe("O7: the crew goes ahead", () => {
  // Out at 5100 - 300 - 600; first 5100 to 5700 at a; second planned at 9000.
  const plan = tinyPlan({ tasks: [A("first"), A("second")] });
  const schedule: Schedule = tinyPlan({
    tasks: [A("first"), A("second")],
    placements: [at("first", 5100), at("second", 9000)],
  }).schedule;

  it("begins when it is ready; who carries on regardless waits for the planned start", () => {
    expect(played(plan, schedule, acting(0)).start("second")).toBe(5700);
    expect(played(plan, schedule, CARRIES_ON).start("second")).toBe(9000);
  });

  it("never before a window, and never in an earlier one than planned", () => {
    const windows = [
      { startS: 5000, endS: 6500 },
      { startS: 8800, endS: 12_000 },
    ];
    const two = tinyPlan({ tasks: [A("first"), A("second", { windows })] });
    expect(played(two, schedule, acting(0)).start("second")).toBe(8800);
  });

  it("never so early that a least lag from work planned later would break, and waits for that no longer than planned", () => {
    // second may end no sooner than 200 s before remote work does, planned from 9000 for 600 s: at 9400, so it begins at 8800.
    const lag = {
      id: "lag",
      type: "lag" as const,
      from: { task: "remote", end: "end" as const },
      to: { task: "second", end: "end" as const },
      leastS: -200,
    };
    const two = tinyPlan({
      tasks: [A("first"), A("second"), task("remote", "a", { crew: { count: 0 } })],
      placements: [
        at("first", 5100),
        at("second", 8900),
        { task: "remote", eva: null, crew: [], startS: instant(9000) },
      ],
      more: { links: [lag] },
    });
    expect(check(two, two.schedule).score.breaches).toBe(0);
    const day = played(two, two.schedule, acting(0));
    expect(day.start("second")).toBe(8800);
    expect(day.state("second")).toBe(DONE);
    // Done sooner than likely, it is worked at until the lag is over as planned.
    const quick = played(two, two.schedule, acting(0), { second: 300 });
    expect(quick.end("second")).toBe(9400);
    expect(quick.state("second")).toBe(DONE);
  });

  it("never brings a start forward that the planner fixed", () => {
    const two = tinyPlan({ tasks: [A("first"), A("second", { pin: { startS: 9000 } })] });
    expect(played(two, schedule, acting(0)).start("second")).toBe(9000);
  });
});

describe("O8: a task is broken off in time to be home", () => {
  // EVA of 3600 s at the most from egress at 4200: in at 7800. Home from a takes 300, ingress 600: leave at 6900.
  const evas = [eva("eva-1", { longestS: 3600 })];
  const plan = tinyPlan({ tasks: [A("first")], evas });
  const { schedule } = tinyPlan({ tasks: [A("first")], placements: [at("first", 5100)], evas });

  it("leaves at the last moment, and everybody is home", () => {
    const { player, state, end } = played(plan, schedule, acting(0), { first: 5000 });
    expect(state("first")).toBe(BROKEN_OFF);
    expect(end("first")).toBe(6900);
    expect(player.closeS[0]).toBe(7800);
    expect(allHome(player)).toBe(true);
  });

  it("does what just fits", () => {
    expect(played(plan, schedule, acting(0), { first: 1800 }).state("first")).toBe(DONE);
    expect(played(plan, schedule, acting(0), { first: 1801 }).state("first")).toBe(BROKEN_OFF);
  });

  it("carries on regardless without the rule", () => {
    const { player, state } = played(plan, schedule, CARRIES_ON, { first: 5000 });
    expect(state("first")).toBe(DONE);
    expect(allHome(player)).toBe(false);
  });
});

describe("O9: optional work is left out for must-do work ahead", () => {
  // Must-do "last" has to begin by 7500 (window to 8100). "middle" is optional, 600 s likely and 1200 s at the most.
  const tasks = [
    A("first"),
    A("middle", { duration: { likelyS: 600, highS: 1200 } }),
    A("last", { must: true, windows: [{ startS: 4000, endS: 8100 }] }),
  ];
  const placements = [at("first", 5100), at("middle", 5700), at("last", 6300)];
  const plan = tinyPlan({ tasks });
  const { schedule } = tinyPlan({ tasks, placements });

  it("when at likely durations the must-do task would begin too late", () => {
    // First ends at 7000: middle would end at 7600, after 7500.
    const late = played(plan, schedule, acting(0), { first: 1900 });
    expect(late.state("middle")).toBe(MISSED);
    expect(late.start("last")).toBe(7000);
    // First ends at 6900: 7500 is in time.
    const just = played(plan, schedule, acting(0), { first: 1800 });
    expect(just.state("middle")).toBe(DONE);
    expect(just.start("last")).toBe(7500);
  });

  it("sooner with caution: half of the way to the high is 900 s", () => {
    expect(played(plan, schedule, acting(0.5), { first: 1500 }).state("middle")).toBe(DONE);
    expect(played(plan, schedule, acting(0.5), { first: 1501 }).state("middle")).toBe(MISSED);
  });

  it("also one that only must-do work on the bench needs: nothing comes of that", () => {
    const withProof = [...tasks, A("proof", { must: true })];
    const benched: Plan = {
      ...tinyPlan({ tasks: withProof }),
      links: [
        {
          id: "middle-proof",
          type: "lag",
          from: { task: "middle", end: "end" },
          to: { task: "proof", end: "start" },
          leastS: duration(0),
          needs: "from",
        },
      ],
    };
    expect(played(benched, schedule, acting(0), { first: 1900 }).state("middle")).toBe(MISSED);
    // With that on the day too it is needed, and done first.
    const whole = tinyPlan({ tasks: withProof, placements: [...placements, at("proof", 6900)] });
    expect(played(benched, whole.schedule, acting(0), { first: 1900 }).state("middle")).toBe(DONE);
  });

  it("not where the must-do task is lost anyway", () => {
    expect(played(plan, schedule, acting(0), { first: 2500 }).state("middle")).toBe(DONE);
  });
});

describe("O10: rests by the rule", () => {
  // At most 3000 s of work without 600 s of rest. Egress 4200; first 5100 to 5700; second would end at 6300 on 2100 s of work.
  const rules = { work: { longestS: 3000, restS: 600 } };
  const tasks = [A("first"), A("second"), A("third")];
  const placements = [at("first", 5100), at("second", 5700), at("third", 6900)];
  const plan = tinyPlan({ tasks, rules });
  const { schedule } = tinyPlan({ tasks, rules, placements });

  it("takes the planned rest also when it comes late, and never eats it", () => {
    // Second ends at 6600 on 2400 s; third, home and ingress would make it 3900: the rest is 6600 to 7200.
    const late = played(plan, schedule, acting(0), { second: 900 });
    expect(late.start("third")).toBe(7200);
    // Who carries on regardless begins at the planned start, 300 s later than ready.
    expect(played(plan, schedule, CARRIES_ON, { second: 900 }).start("third")).toBe(6900);
  });

  it("rests inside a task that turns out longer than the stretch allows", () => {
    // 1500 s of work by 5700, so 1500 are left of the stretch: after 7200 a rest, then 500 more.
    const long = played(plan, schedule, acting(0), { second: 2000 });
    expect(long.end("second")).toBe(5700 + 2000 + 600);
  });
});

describe("no decision looks ahead", () => {
  it("what was decided before two futures part is the same in both", () => {
    let decided = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 24, maxLength: 24 }),
        fc.nat(23),
        fc.double({ min: 1, max: 4, noNaN: true }),
        (seed, parts, which, longer) => {
          const plan = randomPlan(seed, {
            tasks: 12,
            crew: 2 + (seed % 2),
            evas: 1 + (seed % 2),
            places: 5,
            features: 0.5,
          });
          const schedule = greedy(plan);
          if (schedule.placements.length < 3) return;
          const script = scriptOf(plan, schedule);
          const draws = sampleFor(script.problem);
          for (const a of script.order) {
            const { lowS, likelyS, highS } = plan.tasks[a]!.duration;
            const low = lowS ?? likelyS * 0.7;
            draws.durationS[a] = Math.ceil(low + parts[a % parts.length]! * ((highS ?? likelyS * 1.6) - low));
          }
          const changed = script.order[which % script.order.length]!;
          const one = new Player(script, acting(0.25));
          one.take();
          one.play(draws);
          const other = new Player(script, acting(0.25));
          other.take();
          const drawn = draws.durationS[changed]!;
          draws.durationS[changed] = Math.ceil(drawn * longer) + 60;
          // A rare event is part of the future too: nobody knows before its work is over that it came to nothing.
          draws.spoilt[changed] = seed % 3 === 0 ? 1 : 0;
          other.play(draws);
          // The two part when the shorter one of the two would be over; where it was never begun, never.
          if (one.state[changed] === MISSED) {
            expect(other.state).toEqual(one.state);
            return;
          }
          const partS = Math.min(one.endS[changed]!, one.startS[changed]! + drawn, other.endS[changed]!);
          for (const a of script.order) {
            if (a === changed) continue;
            const began = (player: Player): boolean =>
              player.state[a] !== MISSED && player.startS[a]! < partS;
            expect(began(other), `seed ${seed}, ${plan.tasks[a]!.id}`).toBe(began(one));
            if (!began(one)) continue;
            expect(other.startS[a]).toBe(one.startS[a]);
            decided += 1;
          }
        },
      ),
      { numRuns: 400 },
    );
    expect(decided).toBeGreaterThan(200);
  });
});

describe("a crew that acts", () => {
  it("does a sound day as planned, or better, when everything goes as likely", () => {
    let days = 0;
    for (let seed = 1; seed <= 80; seed += 1) {
      const plan = randomPlan(seed, { tasks: 12, crew: 2, evas: 1 + (seed % 2), places: 5, features: 0.4 });
      const schedule = greedy(plan);
      const { score } = check(plan, schedule);
      if (score.breaches > 0 || schedule.placements.length === 0) continue;
      const { player } = played(plan, schedule, acting(0));
      if (plan.rules.reserve.level === "breach") expect(allHome(player), `seed ${seed}`).toBe(true);
      days += 1;
    }
    expect(days).toBeGreaterThan(40);
  });

  it("is the plan's own choice", () => {
    const plan = tinyPlan({ tasks: [A("first")], placements: [at("first", 5100)] });
    expect(plan.odds.crew).toEqual({ acts: true, caution: 0.25 });
  });
});
