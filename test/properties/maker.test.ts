import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { duration, instant } from "../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import { benchReasons, fitBands, greedy, packRun } from "../../src/solver/index.ts";
import { mend } from "../solver/mended.ts";
import { read, Verifier } from "../../src/solver/network/verify.ts";
import { jolt } from "./jolt.ts";
import { randomPlan } from "./randomPlan.ts";

/** Maker and judge share only vocabulary and RULES.md; here they are held to each other on random plans. */

const still = (): number => 0;

function plans(from: number, count: number, tasks = 3): { seed: number; plan: Plan }[] {
  return Array.from({ length: count }, (_, k) => {
    const seed = from + k;
    const shape = {
      tasks: tasks + (seed % 8),
      crew: 1 + (seed % 3),
      evas: 1 + (seed % 2),
      places: 2 + (seed % 6),
      features: (seed % 4) / 3,
    };
    return { seed, plan: randomPlan(seed, shape) };
  });
}

function packed(plan: Plan, seed: number, iterations: number): Schedule {
  const run = packRun(plan, { seed, iterations, clock: still });
  while (run.step(1)) continue;
  return run.best();
}

describe("the maker's check and the judge's", () => {
  it("agree on every jolted schedule of a thousand random plans", () => {
    const heard = new Set<string>();
    let sound = 0;
    for (const { seed, plan } of plans(1, 1000)) {
      const judge = judgeFor(plan);
      const problem = compile(plan);
      const verifier = new Verifier(problem);
      const base = packed(plan, seed, 6);
      for (let k = 0; k < 12; k += 1) {
        const schedule = k === 0 ? base : jolt(plan, base, seed * 100 + k);
        const breaches = judge(schedule).findings.filter((one) => one.level === "breach");
        const { placings, unread } = read(problem, schedule);
        const holds = unread.length === 0 && verifier.holds(placings);
        expect(
          { seed, k, holds },
          `judge: ${breaches.map((one) => one.sentence).join(" ")} maker: ${verifier
            .faults(placings)
            .map((one) => one.rule)
            .join(", ")}`,
        ).toEqual({ seed, k, holds: breaches.length === 0 });
        for (const one of breaches) heard.add(one.rule);
        if (holds) sound += 1;
      }
    }
    // The plans must be worth the comparison: most rules get broken somewhere, and many schedules are sound.
    expect(sound).toBeGreaterThan(2000);
    expect([...heard].sort()).toEqual(
      expect.arrayContaining([
        "battery-reserve",
        "co2-reserve",
        "container",
        "crew-separation",
        "duty",
        "equipment",
        "eva-bounds",
        "eva-distance",
        "hot-keep-out",
        "lander-stores",
        "link-apart",
        "link-crew",
        "link-eva",
        "link-lag",
        "link-needs",
        "one-at-a-time",
        "oxygen-reserve",
        "pin",
        "recharge",
        "relay",
        "return-mass",
        "stay-blocks",
        "stay-distance",
        "suit-worn-once",
        "sun",
        "task-crew",
        "time-window",
        "walk-back-consumables",
        "walk-back-emergency",
        "water-reserve",
        "work-and-rest",
      ]),
    );
  });
});

describe("where every rule is a warning", () => {
  it("the maker's check and the judge's agree on what physics still forbids, and nothing packed runs out", () => {
    const heard = new Map<string, number>();
    for (const { seed, plan } of plans(40_000, 300)) {
      const warned = mildest(plan, 0.3 + (seed % 7) / 10);
      const judge = judgeFor(warned);
      const problem = compile(warned);
      const verifier = new Verifier(problem);
      // Made for the plan as it was, it asks more of the suits than they now hold.
      const base = packed(plan, seed, 6);
      for (let k = 0; k < 8; k += 1) {
        const schedule = k === 0 ? base : jolt(plan, base, seed * 100 + k);
        const breaches = judge(schedule).findings.filter((one) => one.level === "breach");
        const { placings, unread } = read(problem, schedule);
        const holds = unread.length === 0 && verifier.holds(placings);
        expect({ seed, k, holds }, breaches.map((one) => one.sentence).join(" ")).toEqual({
          seed,
          k,
          holds: breaches.length === 0,
        });
        const [only, ...more] = new Set(breaches.map((one) => one.rule));
        if (only && more.length === 0) heard.set(only, (heard.get(only) ?? 0) + 1);
      }
      expect({ seed, breaches: judge(packed(warned, seed, 6)).score.breaches }).toEqual({
        seed,
        breaches: 0,
      });
    }
    // Each kind of physics is now and then all that is wrong with a day.
    for (const rule of ["oxygen-reserve", "water-reserve", "battery-reserve", "walk-back-emergency"])
      expect([rule, heard.get(rule) ?? 0]).toSatisfy(([, times]: [string, number]) => times > 3);
  });
});

/** `plan` with every rule a warning and suits that hold only `share` of what they held. */
function mildest(plan: Plan, share: number): Plan {
  const rules = Object.entries(plan.rules).map(([name, rule]) => [
    name,
    typeof rule === "object" ? { ...rule, level: "warning" } : rule,
  ]);
  return {
    ...plan,
    rules: Object.fromEntries(rules) as Plan["rules"],
    suits: plan.suits.map((suit) => ({
      ...suit,
      oxygenKg: suit.oxygenKg * share,
      co2Kg: suit.co2Kg * share,
      waterKg: suit.waterKg * share,
      batteryWh: suit.batteryWh * share,
      emergencyOxygenS: duration(Math.floor(suit.emergencyOxygenS * share)),
    })),
  };
}

describe("a packed schedule", () => {
  it("has no breach, keeps pins, and is no worse than greedy insertion", () => {
    for (const { seed, plan } of plans(5000, 300)) {
      const judge = judgeFor(plan);
      const made = judge(packed(plan, seed, 80)).score;
      const plain = judge(greedy(plan)).score;
      expect({ seed, breaches: made.breaches + plain.breaches }).toEqual({ seed, breaches: 0 });
      expect(made.mustLeftOut, `seed ${seed}`).toBeLessThanOrEqual(plain.mustLeftOut);
      if (made.mustLeftOut === plain.mustLeftOut)
        expect(made.worth, `seed ${seed}`).toBeGreaterThanOrEqual(plain.worth);
    }
  });

  it("is the same for the same seed and iterations, whatever the clock and the slices", () => {
    for (const { seed, plan } of plans(6000, 20, 8)) {
      const once = packed(plan, seed, 40);
      let ticks = 0;
      const run = packRun(plan, { seed, iterations: 40, clock: () => (ticks += 0.01) });
      while (run.step(0.005)) continue;
      expect(run.best()).toEqual(once);
    }
  });

  it("gets no worse when the whole plan is shifted in time by a day", () => {
    for (const { seed, plan } of plans(7000, 40)) {
      // Touchdown a day earlier leaves sun and Earth where they were at every moment of it. Remote work may begin at touchdown.
      if (plan.tasks.some((task) => task.crew.count === 0)) continue;
      const shifted = shift(plan, 86_400);
      const before = packed(plan, seed, 30);
      const after = packed(shifted, seed, 30);
      expect(after.placements.map((one) => ({ ...one, startS: instant(one.startS - 86_400) }))).toEqual(
        before.placements,
      );
    }
  });

  it("starts from a sound schedule and never gives less worth than it", () => {
    for (const { seed, plan } of plans(8000, 60)) {
      const judge = judgeFor(plan);
      const from = packed(plan, seed, 60);
      const run = packRun(plan, { seed: seed + 1, iterations: 2, clock: still, from });
      while (run.step(1)) continue;
      const before = judge(from).score;
      const after = judge(run.best()).score;
      expect(after.mustLeftOut).toBeLessThanOrEqual(before.mustLeftOut);
      if (after.mustLeftOut === before.mustLeftOut) expect(after.worth).toBeGreaterThanOrEqual(before.worth);
    }
  });
});

describe("fit bands", () => {
  it("are what the judge says of every start tried, and exact to the second at their borders", () => {
    let fitting = 0;
    for (const { seed, plan } of plans(1, 40)) {
      const judge = judgeFor(plan);
      const schedule = packed(plan, seed, 3);
      for (const task of plan.tasks.slice(0, 3)) {
        const others = schedule.placements.filter((one) => one.task !== task.id);
        if (judge({ placements: others }).score.breaches > 0) continue;
        for (const band of fitBands(plan, schedule, task.id)) {
          const fits = (startS: number): boolean =>
            judge({
              placements: [
                ...others,
                { task: task.id, eva: band.eva, crew: [...band.crew], startS: instant(startS) },
              ],
            }).score.breaches === 0;
          const inside = (startS: number): boolean =>
            band.fixed.some((one) => startS >= one.startS && startS < one.endS);
          for (let startS = 0; startS < plan.stay.lengthS; startS += 487) {
            expect({ seed, startS, fits: inside(startS) }).toEqual({ seed, startS, fits: fits(startS) });
            if (inside(startS)) fitting += 1;
          }
          for (const { startS, endS } of band.fixed)
            expect([startS - 1, startS, endS - 1, endS].map(fits)).toEqual([false, true, true, false]);
        }
      }
    }
    expect(fitting).toBeGreaterThan(500);
  });
});

describe("mending and reasons", () => {
  it("a mended schedule has no breach, and a sound one comes back untouched", () => {
    for (const { seed, plan } of plans(9000, 60)) {
      const judge = judgeFor(plan);
      const base = packed(plan, seed, 10);
      expect(mend(plan, base, { seed, clock: still, iterations: 4 }).changes).toEqual([]);
      const broken = jolt(plan, base, seed);
      const mended = mend(plan, broken, { seed, clock: still, iterations: 4 });
      expect({ seed, breaches: judge(mended.schedule).score.breaches }).toEqual({ seed, breaches: 0 });
    }
  });

  it("every task on the bench has a reason, and a fit that is offered holds", () => {
    let offered = 0;
    for (const { seed, plan } of plans(9500, 60)) {
      const judge = judgeFor(plan);
      const base = packed(plan, seed, 2);
      // Two tasks are taken away again, so that something fits.
      const fewer = { placements: base.placements.slice(2) };
      if (judge(fewer).score.breaches > 0) continue;
      const reasons = benchReasons(plan, fewer);
      expect(reasons).toHaveLength(plan.tasks.length - fewer.placements.length);
      for (const { task, fitsAt, slides, sentence } of reasons) {
        expect(sentence).not.toBe("");
        if (!fitsAt || slides) continue;
        offered += 1;
        const placements = [...fewer.placements, { task, ...fitsAt, crew: [...fitsAt.crew] }];
        expect({ seed, task, breaches: judge({ placements }).score.breaches }).toEqual({
          seed,
          task,
          breaches: 0,
        });
      }
    }
    expect(offered).toBeGreaterThan(30);
  });
});

function shift(plan: Plan, byS: number): Plan {
  const later = <T extends number>(value: T): T => (value + byS) as T;
  const both = <T extends { startS: number; endS: number }>(span: T): T => ({
    ...span,
    startS: later(span.startS),
    endS: later(span.endS),
  });
  return {
    ...plan,
    stay: {
      ...plan.stay,
      touchdownUtc: new Date(Date.parse(plan.stay.touchdownUtc) - byS * 1000).toISOString(),
      lengthS: later(plan.stay.lengthS),
      blocks: plan.stay.blocks.map(both),
      relayPasses: plan.stay.relayPasses.map(both),
    },
    evas: plan.evas.map((eva) => ({
      ...eva,
      earliestEgressS: later(eva.earliestEgressS),
      latestIngressS: later(eva.latestIngressS),
    })),
    tasks: plan.tasks.map((task) => ({
      ...task,
      windows: task.windows.map(both),
      ...(task.pin
        ? {
            pin: {
              ...task.pin,
              ...(task.pin.startS === undefined ? {} : { startS: later(task.pin.startS) }),
            },
          }
        : {}),
    })),
  };
}
