import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import { parse, type Plan, type Schedule } from "../../../src/plan/index.ts";
import { packRun } from "../../../src/solver/index.ts";
import { oddsRun } from "../../../src/solver/simulate/index.ts";
import { CARRIES_ON, acting } from "../../../src/solver/simulate/crew.ts";
import { eva, task, tinyPlan } from "../../check/tinyPlan.ts";
import { randomPlan } from "../../properties/randomPlan.ts";

const DAYS = 4000;
const CHANCE = 0.3;
// Four standard errors of a chance of 0.3 counted in 4,000 days.
const FOUR_ERRORS = 4 * Math.sqrt((CHANCE * (1 - CHANCE)) / DAYS);

const mishap = (remedy: object | null) => ({
  what: "no answer",
  chance: CHANCE,
  spoils: true,
  ...(remedy ? { remedy: { name: "By hand", duration: { likelyS: 300 }, ...remedy } } : {}),
});

interface Unit {
  readonly remedy: object | null;
  /** The unit is switched on by command, from the ground. */
  readonly remote?: boolean;
  readonly links?: object[];
}

/** A unit that may not switch on, then a look at something beside it, and readings; nothing else spreads. */
function unitPlan({ remedy, remote = false, links = [] }: Unit): Plan {
  const input = tinyPlan();
  const work = (id: string, worth: number, more: object = {}) => ({
    id,
    name: id,
    kind: "sampling",
    place: "a",
    duration: { likelyS: 600 },
    crew: { named: ["ev1"] },
    worth,
    ...more,
  });
  const made = parse({
    ...input,
    crew: input.crew.map((member) => ({ ...member, workRateSpread: 0 })),
    tasks: [
      work("unit", 10, { mishap: mishap(remedy), ...(remote ? { crew: { count: 0 } } : {}) }),
      work("look", 1),
      work("readings", 100),
    ],
    links,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.error));
  return made.value;
}

const at = (task: string, startS: number, remote = false) => ({
  task,
  eva: remote ? null : "eva-1",
  crew: remote ? [] : ["ev1"],
  startS: instant(startS),
});

function played(plan: Plan, placements: Schedule["placements"]) {
  const run = oddsRun(
    plan,
    { placements },
    { days: DAYS, seed: 5, shape: "pert", crew: CARRIES_ON, clock: () => 0 },
  );
  while (run.step(Infinity));
  return run.report();
}

const inRow = [at("unit", 6000), at("look", 7200), at("readings", 7800)];

describe("O12: the odds of what can be made good", () => {
  it("counts the first of two at one end as made good where there is only time for it", () => {
    // Each goes wrong on half of the days. 600 s of egress, 300 s there and back, 1800 s of work, 600 s of ingress: 1500 s are left, and each takes 1000 s.
    const spoilt = { what: "jams", chance: 0.5, spoils: true };
    const hung = { name: "By hand", after: "host", duration: { likelyS: 1000 } };
    const work = (id: string, more: object = {}) => ({ ...task(id, "a"), worth: 10, ...more });
    const plan = tinyPlan({
      crew: [{ id: "ev1", name: "EV1", bodyMassKg: 80, suit: "suit", workRateSpread: 0 }],
      evas: [eva("eva-1", { crew: ["ev1"], longestS: 5100 })],
      tasks: [
        work("first", { mishap: { ...spoilt, remedy: hung } }),
        work("second", { mishap: { ...spoilt, remedy: hung } }),
        work("host"),
      ],
      rules: { work: { longestS: 86_400 } },
    });
    const run = oddsRun(
      plan,
      { placements: [at("first", 1200), at("second", 1800), at("host", 2400)] },
      { days: DAYS, seed: 5, shape: "pert", crew: acting(0), clock: () => 0 },
    );
    while (run.step(Infinity));
    const { tasks, home } = run.report();
    expect(home.count).toBe(DAYS);
    const done = (id: string) => tasks.find((one) => one.task === id)!.done;
    expect(done("first").count).toBe(DAYS);
    // A quarter of the days, both went wrong.
    expect(Math.abs(done("second").count / DAYS - 0.75)).toBeLessThan(FOUR_ERRORS);
  });

  it("loses the unit as often as the event happens, and never once something makes it good", () => {
    const without = played(unitPlan({ remedy: null }), inRow);
    const lost = 1 - without.tasks[0]!.done.share;
    expect(Math.abs(lost - CHANCE)).toBeLessThan(FOUR_ERRORS);
    // 10 points on the days on which it is not lost; look and readings, 101, always.
    expect(without.worth.mean).toBeCloseTo(101 + 10 * (1 - lost), 9);
    const with_ = played(unitPlan({ remedy: {} }), inRow);
    expect(with_.tasks[0]!.done.share).toBe(1);
    expect(with_.worth.mean).toBe(111);
  });

  it("takes its time on those days only, out of the pause of 600 s and then from what follows", () => {
    // Of 900 s after the unit 600 are pause, so all that follows is 300 s late when the event happens: the window of readings is then missed.
    const windowed = (remedy: object): Plan => {
      const plan = unitPlan({ remedy });
      return {
        ...plan,
        tasks: plan.tasks.map((one) =>
          one.id === "readings"
            ? { ...one, windows: [{ startS: instant(0), endS: instant(8400 + 299) }] }
            : one,
        ),
      };
    };
    const late = played(windowed({ duration: { likelyS: 900 } }), inRow);
    expect(Math.abs(1 - late.tasks[2]!.done.share - CHANCE)).toBeLessThan(FOUR_ERRORS);
    expect(late.tasks[0]!.done.share).toBe(1);
    const inTime = played(windowed({ duration: { likelyS: 899 } }), inRow);
    expect(inTime.tasks[2]!.done.share).toBe(1);
  });

  it("is made good at the end of another task, after a command that fails; what needs it waits for that", () => {
    const needs = [
      {
        id: "on",
        type: "lag",
        from: { task: "unit", end: "end" },
        to: { task: "readings", end: "start" },
        leastS: 0,
      },
    ];
    const placements = [at("unit", 6000, true), at("look", 6300), at("readings", 7500)];
    const lost = played(unitPlan({ remedy: null, remote: true, links: needs }), placements);
    expect(Math.abs(1 - lost.tasks[2]!.done.share - CHANCE)).toBeLessThan(FOUR_ERRORS);
    // The command is over at 6600, the look at 6900: then by hand, and readings in time.
    const hung = unitPlan({ remedy: { after: "look" }, remote: true, links: needs });
    const good = played(hung, placements);
    expect(good.tasks.map(({ done }) => done.share)).toEqual([1, 1, 1]);
    // A look that is over before the command makes nothing good.
    const early = played(hung, [at("unit", 6000, true), at("look", 5900), at("readings", 7500)]);
    expect(early.tasks[0]!.done.count).toBe(lost.tasks[0]!.done.count);
    expect(early.tasks[2]!.done.count).toBe(lost.tasks[2]!.done.count);
  });
});

describe("S19: the planned day", () => {
  it("is judged and packed as without anything that is done only if", () => {
    let tried = 0;
    for (let seed = 1; tried < 12; seed += 1) {
      const plain = randomPlan(seed, { tasks: 10, crew: 2, evas: 1 + (seed % 2), places: 4, features: 0.6 });
      const host = plain.tasks.find(({ crew }) => crew.count > 0);
      if (!host) continue;
      tried += 1;
      const remedied = parse({
        ...JSON.parse(JSON.stringify(plain)),
        tasks: plain.tasks.map((one, a) =>
          a % 2 === 0 ? { ...one, mishap: mishap({ after: host.id, duration: { likelyS: 1800 } }) } : one,
        ),
      });
      if (!remedied.ok) throw new Error(JSON.stringify(remedied.error));
      const [a, b] = [plain, remedied.value].map((plan) => {
        const run = packRun(plan, { seed, iterations: 120, clock: () => 0 });
        while (run.step(1)) continue;
        return run.best();
      });
      expect(b, `seed ${seed}`).toEqual(a);
      expect(check(remedied.value, b!), `seed ${seed}`).toEqual(check(plain, a!));
    }
  });
});
