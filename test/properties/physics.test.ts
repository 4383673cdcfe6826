import { describe, expect, it } from "vitest";
import { check, judgeFor } from "../../src/check/index.ts";
import { random, type Random } from "../../src/kernel/index.ts";
import { parse, type Plan, suitIdOn } from "../../src/plan/index.ts";
import { greedy } from "../../src/solver/index.ts";
import { gaitsOf, insideOf, waysOf } from "../../src/terrain/index.ts";
import { randomPlan } from "./randomPlan.ts";

/**
 * Numbers that beat physics, put where a sound schedule uses them: a leg on a way that is walked, a task that is placed, the speeds that
 * everybody walks at, the stocks of a suit that is out. None of them may pass for a day without a breach, whatever levels the
 * plan's rules have.
 */

// A draft is anything; here it is mostly a plan.
// eslint-disable-next-line @typescript-eslint/no-explicit-any
type Draft = any;
/** Changes a draft of `plan`, flown as it is; false where there is nothing to change. */
type Mutant = (draft: Draft, plan: Plan, stream: Random) => boolean;

const pick = <T>(stream: Random, list: readonly T[]): T | undefined =>
  list[stream.below(Math.max(1, list.length))];

/** A way of the schedule between two places that lie apart, with the straight line between them. */
function walkedPair(plan: Plan, stream: Random) {
  const ids = new Map(plan.site.places.map((one) => [one.id, one]));
  const pairs = check(plan)
    .outings.flatMap(({ stretches }) => stretches)
    .flatMap(({ kind, path }) =>
      kind === "traverse" ? path.slice(1).map((to, k) => [path[k]!, to] as const) : [],
    )
    .map(([from, to]) => {
      const [a, b] = [ids.get(from)!, ids.get(to)!];
      return { from, to, lineM: Math.hypot(a.eastM - b.eastM, a.northM - b.northM, a.upM - b.upM) };
    })
    .filter(({ lineM }) => lineM > 20);
  return pick(stream, pairs);
}

/** Puts a leg on a way that is walked, in place of any that is there. */
function legged(draft: Draft, plan: Plan, stream: Random, numbers: (lineM: number) => object): boolean {
  const way = walkedPair(plan, stream);
  if (!way) return false;
  const { from, to, lineM } = way;
  const others = draft.site.legs.filter(
    (leg: Draft) => !((leg.from === from && leg.to === to) || (leg.from === to && leg.to === from)),
  );
  draft.site.legs = [...others, { from, to, bothWays: stream.next() < 0.5, ...numbers(lineM) }];
  return true;
}

function placedTask(draft: Draft, plan: Plan, stream: Random): Draft | undefined {
  const crewed = new Set(
    plan.schedule.placements.filter((one) => one.crew.length > 0).map((one) => one.task),
  );
  return pick(
    stream,
    draft.tasks.filter((task: Draft) => crewed.has(task.id)),
  );
}

const MUTANTS: readonly (readonly [name: string, mutant: Mutant])[] = [
  [
    "a leg shorter than the line",
    (draft, plan, stream) =>
      legged(draft, plan, stream, (lineM) => ({ distanceM: lineM * 0.95 * stream.next(), durationS: 5000 })),
  ],
  [
    "a leg faster than people walk",
    (draft, plan, stream) =>
      legged(draft, plan, stream, (lineM) => {
        const distanceM = Math.ceil(lineM * (1 + stream.next()));
        return { distanceM, durationS: Math.floor((distanceM / 2) * (0.1 + 0.85 * stream.next())) };
      }),
  ],
  [
    "a leg of nothing",
    (draft, plan, stream) => legged(draft, plan, stream, () => ({ distanceM: 0, durationS: 0 })),
  ],
  [
    "a worst walk-back shorter than the line home",
    (draft, plan, stream) =>
      legged(draft, plan, stream, (lineM) => ({
        distanceM: Math.ceil(lineM * 1.2),
        durationS: Math.ceil(lineM * 1.5),
        walkbackPeakM: 5 * stream.next(),
      })),
  ],
  [
    "a walk that is longer than its task",
    (draft, plan, stream) => {
      const task = placedTask(draft, plan, stream);
      if (!task) return false;
      task.walkM = Math.ceil(task.duration.likelyS * plan.rules.walking.speedMs * (1.1 + stream.next())) + 10;
      return true;
    },
  ],
  [
    "an end place farther than the task is long",
    (draft, plan, stream) => {
      const task = placedTask(draft, plan, stream);
      const ways = waysOf(plan.site, gaitsOf(plan).planned);
      const far =
        task &&
        pick(
          stream,
          plan.site.places.filter(({ id }) => {
            const { leastS } = insideOf(
              ways,
              { place: task.place, endPlace: id, walkM: 0 },
              plan.rules.walking.speedMs,
            );
            return leastS < 0 || leastS > 60;
          }),
        );
      if (!task || !far) return false;
      task.endPlace = far.id;
      task.duration = { likelyS: Math.floor(59 * stream.next()) };
      return true;
    },
  ],
  [
    "planned walking faster than people walk",
    (draft, plan, stream) => {
      draft.rules.walking.speedMs = 1.95 + 3 * stream.next();
      return check(plan).outings.length > 0;
    },
  ],
  [
    "a walk-back faster than people walk",
    (draft, plan, stream) => {
      draft.rules.walkback.speedMs = 1.95 + 3 * stream.next();
      return check(plan).outings.length > 0;
    },
  ],
  [
    "a stock that runs out",
    (draft, plan, stream) => {
      const out = pick(stream, check(plan).outings);
      const eva = plan.evas.find((one) => one.id === out?.eva);
      const worn = out && eva ? suitIdOn(plan, eva, out.crew) : null;
      const suit = draft.suits.find((one: Draft) => one.id === worn);
      if (!out || !suit) return false;
      suit[pick(stream, ["oxygenKg", "co2Kg", "waterKg", "batteryWh"])!] = 0;
      suit.electricalW = Math.max(1, suit.electricalW);
      return true;
    },
  ],
  [
    "no emergency oxygen",
    (draft, plan) => {
      const away = check(plan).reach.some(({ points }) => points.some(({ value }) => value > 0));
      for (const suit of draft.suits) suit.emergencyOxygenS = 0;
      return away;
    },
  ],
];

describe("a plan with a number that beats physics", () => {
  it("never has a day without a breach: 500 mutants of sound days, whatever levels the rules have", () => {
    const tried = new Map<string, number>();
    let count = 0;
    for (let seed = 1; count < 500; seed += 1) {
      expect(seed).toBeLessThan(400);
      const base = randomPlan(20_000 + seed, {
        tasks: 3 + (seed % 5),
        crew: 1 + (seed % 2),
        evas: 1,
        places: 3 + (seed % 4),
        features: (seed % 3) / 2,
      });
      const schedule = greedy(base);
      const plan: Plan = { ...base, schedule };
      if (schedule.placements.length === 0 || check(plan).score.breaches > 0) continue;
      const stream = random(seed);
      for (const [name, mutant] of MUTANTS) {
        const draft = structuredClone(plan) as Draft;
        if (!mutant(draft, plan, stream)) continue;
        // Half of them with every rule that may be a warning a warning.
        if (stream.next() < 0.5)
          for (const rule of Object.values(draft.rules) as Draft[])
            if (typeof rule === "object" && "level" in rule) rule.level = "warning";
        const read = parse(JSON.parse(JSON.stringify(draft)));
        if (!read.ok) throw new Error(`${seed} ${name}: ${JSON.stringify(read.error)}`);
        const breaches = judgeFor(read.value)(read.value.schedule).score.breaches;
        expect({ seed, name, caught: breaches > 0 }).toEqual({ seed, name, caught: true });
        // And nobody packs it: what is left of the day has no breach.
        if (stream.next() < 0.1)
          expect({ seed, name, made: judgeFor(read.value)(greedy(read.value)).score.breaches }).toEqual({
            seed,
            name,
            made: 0,
          });
        tried.set(name, (tried.get(name) ?? 0) + 1);
        count += 1;
      }
    }
    for (const [name] of MUTANTS) expect(tried.get(name) ?? 0, name).toBeGreaterThan(20);
  });
});
