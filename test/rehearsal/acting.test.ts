import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant, random } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { type Call, nextCall, played, rehearsalFrom, standingOf } from "../../src/rehearsal/index.ts";
import { greedy } from "../../src/solver/index.ts";
import { walksOf } from "../../src/terrain/index.ts";
import { rehearsalLosesWords } from "../../src/words/index.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "../check/tinyPlan.ts";
import { randomPlan } from "../properties/randomPlan.ts";

// From the lander to a 300 s, egress work until 2100; a is done from 2400 on. Everything by ev1 at a.
const alone = { crew: { named: ["ev1"] } };
const day = (parts: TinyParts): Plan => tinyPlan({ evas: [eva("eva-1")], ...parts });
const callsOf = (plan: Plan, calls: readonly Call[] = []): readonly Call[] =>
  played(plan, { ...rehearsalFrom(0, 1), calls: [...calls] }, plan.stay.lengthS, walksOf(plan)).calls;
const timeOf = (calls: readonly Call[], kind: Call["kind"], id: string): number | undefined =>
  calls.find((one) => one.kind === kind && "task" in one && one.task === id)?.atS;
/** `task` always takes so long: its likely time is another. */
const turnsOut = (seconds: number, likelyS: number) => ({ lowS: seconds, likelyS, highS: seconds });
const carriesOn = { odds: { crew: { acts: false } } };

describe("a crew that plays a rehearsal by itself acts", () => {
  // The first takes 300 s and not 600: a day in which what follows was planned right behind it.
  const early = (more: TinyParts["more"] = {}, second: object = {}): Plan =>
    day({
      tasks: [
        task("first", "a", { ...alone, duration: { lowS: 300, likelyS: 300, highS: 300 } }),
        task("second", "a", { ...alone, ...second }),
      ],
      placements: [at("first", 2400, ["ev1"]), at("second", 2700, ["ev1"])],
      more,
    });

  it("O7: begins when ready what was planned right behind, and not what was planned to wait", () => {
    const slow: Plan = day({
      tasks: [task("first", "a", { ...alone, duration: turnsOut(600, 600) }), task("second", "a", alone)],
      placements: [at("first", 2400, ["ev1"]), at("second", 3000, ["ev1"])],
    });
    const done: Call = { kind: "ends", task: "first", atS: instant(2700) };
    const before: Call[] = [
      { kind: "out", eva: "eva-1", atS: instant(0) },
      { kind: "begins", task: "first", atS: instant(2400) },
      done,
    ];
    expect(timeOf(callsOf(slow, before), "begins", "second")).toBe(2700);
    // With a wait of ten minutes in the plan it is begun as planned.
    const waits = {
      ...slow,
      schedule: {
        placements: slow.schedule.placements.map((one) =>
          one.task === "second" ? { ...one, startS: instant(3600) } : one,
        ),
      },
    };
    expect(timeOf(callsOf(waits, before), "begins", "second")).toBe(3600);
    const pinned = {
      ...slow,
      tasks: slow.tasks.map((one) =>
        one.id === "second" ? { ...one, pin: { startS: instant(3000) } } : one,
      ),
    };
    expect(timeOf(callsOf(pinned, before), "begins", "second")).toBe(3000);
    const regardless = { ...slow, odds: { ...slow.odds, crew: { ...slow.odds.crew, acts: false } } };
    expect(timeOf(callsOf(regardless, before), "begins", "second")).toBe(3000);
    expect(timeOf(callsOf(early()), "begins", "second")).toBe(2700);
  });

  it("O8: breaks off in time to be home, and does not begin what cannot be", () => {
    // 600 s of work jam for 4,000 s more. Ingress complete by 6000, less ingress work and 300 s of way.
    const long = (acts: boolean): Plan =>
      day({
        evas: [{ ...eva("eva-1"), latestIngressS: 6000 }],
        tasks: [
          task("first", "a", {
            ...alone,
            duration: { likelyS: 600 },
            mishap: { what: "jams", chance: 1, extraS: 4000 },
          }),
          task("second", "a", alone),
        ],
        placements: [at("first", 2400, ["ev1"]), at("second", 3000, ["ev1"])],
        ...(acts ? {} : { more: carriesOn }),
      });
    const plan = long(true);
    const calls = callsOf(plan);
    expect(timeOf(calls, "left-out", "first")).toBe(6000 - plan.evas[0]!.ingressWorkS - 300);
    expect(timeOf(calls, "begins", "second")).toBeUndefined();
    expect(calls.find((one) => one.kind === "in")?.atS).toBe(6000);
    expect(callsOf(long(false)).find((one) => one.kind === "in")?.atS).toBeGreaterThan(6000);
    // What is known before is not begun at all: they go out at 1500, for the start at 2400, and it is certain then.
    const told: Call = { kind: "longer", task: "first", byS: 4000, atS: instant(0) };
    expect(timeOf(callsOf(plan, [told]), "left-out", "first")).toBe(1500);
  });

  it("O9: leaves an optional task out for must-do work ahead, and not where all fits", () => {
    // The last has to end by 5400 and takes 600 s. 1,300 s late the second ends at 4900.
    const made = day({
      tasks: [
        task("first", "a", { ...alone, duration: { likelyS: 600 } }),
        task("second", "a", { ...alone, duration: { likelyS: 600 } }),
        task("last", "a", {
          ...alone,
          must: true,
          duration: { likelyS: 600 },
          windows: [{ startS: 0, endS: 5400 }],
        }),
      ],
      placements: [at("first", 2400, ["ev1"]), at("second", 3000, ["ev1"]), at("last", 3600, ["ev1"])],
    });
    const late = (byS: number): readonly Call[] =>
      callsOf(made, [{ kind: "longer", task: "first", byS, atS: instant(0) }]);
    expect(timeOf(late(1200), "begins", "last")).toBe(4800);
    expect(timeOf(late(1200), "left-out", "second")).toBeUndefined();
    expect(timeOf(late(1300), "left-out", "second")).toBe(4300);
    expect(timeOf(late(1300), "begins", "last")).toBe(4300);
  });

  it("O10: rests by the rule when what is late makes a stretch too long", () => {
    const made = day({
      rules: { work: { longestS: 3600, restS: 600 } },
      tasks: [
        task("first", "a", { ...alone, duration: { likelyS: 600 } }),
        task("second", "a", { ...alone, duration: { likelyS: 600 } }),
        task("third", "a", { ...alone, duration: { likelyS: 600 } }),
      ],
      placements: [at("first", 2400, ["ev1"]), at("second", 3000, ["ev1"]), at("third", 4200, ["ev1"])],
    });
    const calls = callsOf(made, [{ kind: "longer", task: "first", byS: 300, atS: instant(0) }]);
    // The second would end at 3900, later than 3600 s after egress: it waits for 600 s after the first.
    const outS = calls.find((one) => one.kind === "out")!.atS;
    expect(timeOf(calls, "begins", "second")).toBe(3300 + (3900 - outS > 3600 ? 600 : 0));
  });

  it("O11: what goes wrong takes longer, and where it spoils the task that is given up, with what needs it", () => {
    const made = (spoils: boolean): Plan =>
      day({
        tasks: [
          task("first", "a", {
            ...alone,
            duration: { likelyS: 600 },
            mishap: { what: "jams", chance: 1, extraS: 120, spoils },
          }),
          task("second", "a", alone),
        ],
        placements: [at("first", 2400, ["ev1"]), at("second", 3000, ["ev1"])],
        more: {
          links: [
            {
              id: "needs",
              type: "lag",
              from: { task: "first", end: "end" },
              to: { task: "second", end: "start" },
              leastS: 0,
            },
          ],
        },
      });
    expect(timeOf(callsOf(made(false)), "ends", "first")).toBe(3120);
    expect(timeOf(callsOf(made(true)), "spoilt", "first")).toBe(3120);
    expect(timeOf(callsOf(made(true)), "begins", "second")).toBeUndefined();
  });

  it("O12: what can be made good is, at its own end or, after work without crew, at that of another task", () => {
    const mishap = (after?: string) => ({
      what: "no answer",
      chance: 1,
      spoils: true,
      remedy: { name: "by hand", duration: { likelyS: 300 }, ...(after === undefined ? {} : { after }) },
    });
    const own = callsOf(
      day({
        tasks: [task("first", "a", { ...alone, duration: { likelyS: 600 }, mishap: mishap() })],
        placements: [at("first", 2400, ["ev1"])],
      }),
    );
    expect(timeOf(own, "ends", "first")).toBe(3300);
    const remote = (likelyS: number) =>
      callsOf(
        day({
          tasks: [
            task("command", null, { duration: { likelyS }, mishap: mishap("first") }),
            task("first", "a", { ...alone, duration: { likelyS: 600 } }),
          ],
          placements: [
            { task: "command", eva: null, crew: [], startS: instant(2300) },
            at("first", 2400, ["ev1"]),
          ],
        }),
      );
    // Over at 2700, before the first is at 3000: by hand until 3300. Over at 3100 it is too late for that.
    const good = remote(400);
    expect([timeOf(good, "ends", "first"), timeOf(good, "ends", "command")]).toEqual([3300, 3300]);
    const late = remote(800);
    expect([timeOf(late, "ends", "first"), timeOf(late, "spoilt", "command")]).toEqual([3000, 3100]);
    // What work with crew was for is lost, other than on simulated days, and that is said.
    const crewed = day({
      tasks: [
        task("first", "a", { ...alone, duration: { likelyS: 600 }, mishap: mishap("second") }),
        task("second", "a", { ...alone, duration: { likelyS: 600 } }),
      ],
      placements: [at("first", 2400, ["ev1"]), at("second", 3000, ["ev1"])],
    });
    expect(timeOf(callsOf(crewed), "spoilt", "first")).toBe(3000);
    expect(rehearsalLosesWords(crewed)).toMatch(/with 1 task is lost in it, though not on simulated days/);
  });
});

describe("rehearsals of random plans", () => {
  const spread = (plan: Plan): Plan => ({
    ...plan,
    tasks: plan.tasks.map((one) => ({
      ...one,
      duration: { ...one.duration, highS: (one.duration.likelyS * 3) as typeof one.duration.likelyS },
    })),
  });

  it("bring everybody home inside the limits of time, and lose no order", () => {
    let broken = 0;
    for (let seed = 1; seed <= 25; seed += 1) {
      const packed = spread(
        randomPlan(seed, { tasks: 10, crew: 2, evas: 1 + (seed % 2), places: 4, features: 0.5 }),
      );
      const laid: Plan = { ...packed, schedule: greedy(packed) };
      // Two minutes to spare on each EVA.
      const { outings } = judgeFor(laid)(laid.schedule);
      const plan: Plan = {
        ...laid,
        evas: laid.evas.map((one) => {
          const endS = outings.find((out) => out.eva === one.id)?.span.endS;
          return endS === undefined ? one : { ...one, latestIngressS: instant(endS + 120) };
        }),
      };
      const walks = walksOf(plan);
      const over = played(plan, rehearsalFrom(0, seed), plan.stay.lengthS, walks);
      const { plan: gone } = standingOf(plan, over, walks);
      const findings = judgeFor(gone)(gone.schedule).findings.filter(({ level }) => level === "breach");
      expect(
        findings.filter(({ rule }) => rule === "eva-bounds" || rule === "one-at-a-time"),
        `seed ${seed}`,
      ).toEqual([]);
      broken += over.calls.filter(({ kind }) => kind === "left-out").length;
    }
    expect(broken).toBeGreaterThan(10);
  });

  it("decide alike until two futures part", () => {
    let compared = 0;
    for (let seed = 1; seed <= 25; seed += 1) {
      const packed = spread(randomPlan(seed, { tasks: 10, crew: 2, evas: 1, places: 4, features: 0.5 }));
      const plan: Plan = { ...packed, schedule: greedy(packed) };
      const walks = walksOf(plan);
      const calls = callsOf(plan);
      const ends = calls.filter((one) => one.kind === "ends");
      const one = ends[random(seed).below(Math.max(1, ends.length))];
      if (!one || one.kind !== "ends") continue;
      // The same day, but that task takes for ever: told by a word that nobody decides by before its time.
      const other: Plan = {
        ...plan,
        tasks: plan.tasks.map((each) =>
          each.id === one.task
            ? { ...each, mishap: { what: "jams", chance: 1, extraS: 3000 as typeof each.duration.likelyS } }
            : each,
        ),
      };
      const then = callsOf(other);
      const until = (list: readonly Call[]) => list.filter(({ atS }) => atS < one.atS);
      expect(until(then), `seed ${seed}`).toEqual(until(calls));
      compared += until(calls).length;
      expect(nextCall(plan, rehearsalFrom(0, 1), walks)).toEqual(calls[0]);
    }
    expect(compared).toBeGreaterThan(100);
  });
});
