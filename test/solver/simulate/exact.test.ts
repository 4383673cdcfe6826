import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { duration, instant, random } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { greedy } from "../../../src/solver/index.ts";
import { CARRIES_ON, acting } from "../../../src/solver/simulate/crew.ts";
import { Count, countOf } from "../../../src/solver/simulate/count.ts";
import { Days, type DaySample, sampleFor } from "../../../src/solver/simulate/days.ts";
import { Player } from "../../../src/solver/simulate/player.ts";
import { normalCdf, quantilesOf, STEPS } from "../../../src/solver/simulate/quantiles.ts";
import { type Script, scriptOf } from "../../../src/solver/simulate/script.ts";
import { allHome, keepsMusts, worthOf } from "../../../src/solver/simulate/tally.ts";
import { at, task, tinyPlan } from "../../check/tinyPlan.ts";
import { randomPlan } from "../../properties/randomPlan.ts";
import { sumOfTwo } from "../../published/triangles.ts";

/** Every task by itself: no part of a spread is held in common. */
function apart(plan: Plan): Plan {
  return { ...plan, odds: { ...plan.odds, lateness: { ...plan.odds.lateness, day: 0, outing: 0 } } };
}

/** `plan` with durations that spread widely and work rates that do not. */
function spread(plan: Plan): Plan {
  return apart({
    ...plan,
    crew: plan.crew.map((member) => ({ ...member, workRateSpread: 0 })),
    tasks: plan.tasks.map((one) => {
      const { likelyS } = one.duration;
      const lowS = duration(Math.floor(likelyS * 0.5));
      return { ...one, duration: { likelyS, lowS, highS: duration(likelyS * 3 + 600) } };
    }),
  });
}

/** A drawn step is over the middle one from half a step on. */
const OVER = 1 - normalCdf(0.5 / 64);

/** Days on which each task takes one of two times: the short one where less than the median is drawn, else the long one. */
class TwoPoint extends Days {
  readonly shortS: readonly number[];
  readonly longS: readonly number[];
  private readonly middleS: readonly number[];

  constructor(script: Script, count: number, seed: number) {
    super(script.problem, "pert", count, seed);
    const { plan } = script.problem;
    const { lowS } = script.stage;
    this.middleS = plan.tasks.map(({ duration: { likelyS, highS } }, a) =>
      Math.ceil(quantilesOf("pert", lowS[a]!, likelyS, highS!)[(STEPS - 1) / 2]! - 1e-6),
    );
    this.shortS = plan.tasks.map(({ duration: { likelyS } }) => likelyS);
    this.longS = plan.tasks.map(({ duration: { likelyS } }) => Math.ceil(likelyS * 1.7));
  }

  override deal(day: number, order: Int32Array, laneOf: Int32Array, draws: DaySample): void {
    super.deal(day, order, laneOf, draws);
    for (const a of order)
      draws.durationS[a] = draws.durationS[a]! > this.middleS[a]! ? this.longS[a]! : this.shortS[a]!;
  }
}

/** What every day enumerated comes to. */
interface Exact {
  home: number;
  must: number;
  worth: number;
  square: number;
}

/** Holds what is counted on `days` to it: some 100 comparisons pass four and a half standard errors by chance once in a thousand such tests. */
function expectCounted(counted: Omit<Exact, "square">, exact: Exact, days: number, words: string): void {
  const within = (share: number): number => 4.5 * Math.sqrt(Math.max(0, share * (1 - share)) / days) + 1e-9;
  expect(Math.abs(counted.home - exact.home), `home, ${words}`).toBeLessThanOrEqual(within(exact.home));
  expect(Math.abs(counted.must - exact.must), `must-do, ${words}`).toBeLessThanOrEqual(within(exact.must));
  const deviation = Math.sqrt(Math.max(0, exact.square - exact.worth ** 2) / days);
  expect(Math.abs(counted.worth - exact.worth), `worth, ${words}`).toBeLessThanOrEqual(
    4.5 * deviation + 1e-6,
  );
}

describe("plans with two-point durations, every one of their days enumerated", () => {
  it("have the chances that are counted, within the error of counting, on 50 random plans", () => {
    const DAYS = 4000;
    let plans = 0;
    let between = 0;
    for (let seed = 1; plans < 50; seed += 1) {
      const plan = spread(
        randomPlan(seed, { tasks: 11, crew: 2, evas: 1 + (seed % 2), places: 4, features: 0.6 }),
      );
      const schedule = greedy(plan);
      const count = schedule.placements.length;
      if (count < 3 || count > 12) continue;
      plans += 1;
      const script = scriptOf(plan, schedule);
      const player = new Player(script, plans % 5 === 0 ? CARRIES_ON : acting(0.25));
      player.take();
      const days = new TwoPoint(script, DAYS, seed);
      const draws = sampleFor(script.problem);
      const exact = { home: 0, must: 0, worth: 0, square: 0 };
      const allPlaced = plan.tasks.every(({ must }, a) => !must || script.placed[a] === 1);
      for (let bits = 0; bits < 2 ** count; bits += 1) {
        let chance = 1;
        script.order.forEach((a, p) => {
          const long = ((bits >> p) & 1) === 1;
          draws.durationS[a] = long ? days.longS[a]! : days.shortS[a]!;
          chance *= long ? OVER : 1 - OVER;
        });
        player.play(draws);
        if (allHome(player)) exact.home += chance;
        if (allPlaced && keepsMusts(player)) exact.must += chance;
        exact.worth += chance * worthOf(player);
        exact.square += chance * worthOf(player) ** 2;
      }
      const counted = new Count(player, days);
      counted.begin();
      // 150 comparisons.
      expectCounted(counted.until(DAYS).seen, exact, DAYS, `seed ${seed}`);
      if (exact.must > 0.01 && exact.must < 0.99) between += 1;
    }
    expect(between).toBeGreaterThan(5);
  });
});

describe("rare events, every one of their days enumerated", () => {
  /** Durations and paces of `plan` as likely; of every second task something may go wrong, and of every tool. */
  function rare(plan: Plan, seed: number): Plan {
    const stream = random(seed);
    const mishap = () => ({
      what: "goes wrong",
      chance: stream.between(0.05, 0.5),
      extraS: duration(stream.below(1800)),
      spoils: stream.next() < 0.5,
    });
    return {
      ...plan,
      crew: plan.crew.map((member) => ({ ...member, workRateSpread: 0 })),
      tasks: plan.tasks.map((one, a) => ({
        ...one,
        duration: { likelyS: one.duration.likelyS },
        ...(a % 2 === 0 ? { mishap: mishap() } : {}),
      })),
      equipment: plan.equipment.map((one) => ({ ...one, mishap: mishap() })),
    };
  }

  it("have the chances that are counted, within the error of counting, on 30 random plans", () => {
    const DAYS = 4000;
    let plans = 0;
    let between = 0;
    for (let seed = 1; plans < 30; seed += 1) {
      const harmed = rare(
        randomPlan(seed, { tasks: 10, crew: 2, evas: 1 + (seed % 2), places: 4, features: 0.6 }),
        seed,
      );
      const schedule = greedy(harmed);
      // Every other placed task must be done, so that there is something to miss.
      const placed = new Set(schedule.placements.map((one) => one.task));
      const plan: Plan = {
        ...harmed,
        tasks: harmed.tasks.map((one, a) => ({ ...one, must: a % 2 === 0 && placed.has(one.id) })),
      };
      const script = scriptOf(plan, schedule);
      // Its own, and one for each piece of equipment that it names.
      const events = [...script.order].flatMap((a) => {
        const one = plan.tasks[a]!;
        const used = one.equipment.map(({ equipment }) => plan.equipment.find(({ id }) => id === equipment)!);
        return [one, ...used].flatMap(({ mishap }) => (mishap ? [{ a, mishap }] : []));
      });
      if (schedule.placements.length < 3 || events.length < 3 || events.length > 10) continue;
      plans += 1;
      const player = new Player(script, plans % 5 === 0 ? CARRIES_ON : acting(0.25));
      player.take();
      const draws = sampleFor(script.problem);
      const exact = { home: 0, must: 0, worth: 0, square: 0 };
      const allPlaced = plan.tasks.every(({ must }, a) => !must || script.placed[a] === 1);
      for (let bits = 0; bits < 2 ** events.length; bits += 1) {
        let chance = 1;
        draws.spoilt.fill(0);
        plan.tasks.forEach((one, a) => (draws.durationS[a] = one.duration.likelyS));
        events.forEach(({ a, mishap }, k) => {
          const happens = ((bits >> k) & 1) === 1;
          chance *= happens ? mishap.chance : 1 - mishap.chance;
          if (!happens) return;
          draws.durationS[a]! += mishap.extraS ?? 0;
          if (mishap.spoils) draws.spoilt[a] = 1;
        });
        player.play(draws);
        if (allHome(player)) exact.home += chance;
        if (allPlaced && keepsMusts(player)) exact.must += chance;
        exact.worth += chance * worthOf(player);
        exact.square += chance * worthOf(player) ** 2;
      }
      const counted = new Count(player, new Days(script.problem, "pert", DAYS, seed));
      counted.begin();
      // 90 comparisons.
      expectCounted(counted.until(DAYS).seen, exact, DAYS, `seed ${seed}`);
      if (exact.must > 0.01 && exact.must < 0.99) between += 1;
    }
    expect(between).toBeGreaterThan(5);
  });

  it("leave every other draw as it is without them, and the judge's likely day", () => {
    const plan = spread(randomPlan(3, { tasks: 10, crew: 2, evas: 1, places: 4, features: 0.6 }));
    const schedule = greedy(plan);
    const harmed: Plan = {
      ...plan,
      tasks: plan.tasks.map((one, a) =>
        a === 0 ? { ...one, mishap: { what: "jams", chance: 1, extraS: duration(777), spoils: true } } : one,
      ),
    };
    expect(check(harmed, schedule)).toEqual(check(plan, schedule));
    const dealt = (of: Plan) => {
      const script = scriptOf(of, schedule);
      const days = new Days(script.problem, "pert", 20, 1);
      const draws = sampleFor(script.problem);
      return Array.from({ length: 20 }, (_, day) => {
        days.deal(
          day,
          Int32Array.from(plan.tasks, (__, a) => a),
          script.laneOf,
          draws,
        );
        return { ...draws, durationS: [...draws.durationS], spoilt: [...draws.spoilt] };
      });
    };
    const [well, ill] = [dealt(plan), dealt(harmed)];
    well.forEach((day, k) => {
      expect(ill[k]!.durationS).toEqual(day.durationS.map((one, a) => (a === 0 ? one + 777 : one)));
      expect(ill[k]!.spoilt).toEqual(day.spoilt.map((_, a) => (a === 0 ? 1 : 0)));
    });
  });
});

describe("closed forms", () => {
  const first = { low: 480, likely: 720, high: 1080 };
  const second = { low: 600, likely: 660, high: 1500 };
  const spreadOf = ({ low, likely, high }: typeof first) => ({ lowS: low, likelyS: likely, highS: high });

  it.each([1500, 1700, 1900, 2200])(
    "a chain of two triangular tasks is done by %i s as often as the distribution of their sum says",
    (byS) => {
      // Planned as if each took its least time, so that nobody ever waits for a planned start. The third takes a second and has to begin within the window that closes `byS` and that second after the first begins.
      const tasks = [
        task("first", "a", { duration: spreadOf(first), crew: { named: ["ev1"] } }),
        task("second", "a", { duration: spreadOf(second), crew: { named: ["ev1"] } }),
        task("third", "a", {
          duration: { likelyS: 1 },
          must: true,
          crew: { named: ["ev1"] },
          windows: [{ startS: 0, endS: 6000 + byS + 1 }],
        }),
      ];
      const plan = apart(
        tinyPlan({ tasks, placements: [at("first", 6000), at("second", 6480), at("third", 7080)] }),
      );
      const script = scriptOf(plan, plan.schedule);
      const N = 20_000;
      const days = new Days(script.problem, "triangular", N, 31);
      const { must } = countOf(script.stage, plan.schedule, CARRIES_ON, days).until(N).seen;
      // Drawn in 513 steps of the deviate and rounded up to whole seconds: two tasks, a second each, besides four standard errors.
      const low = sumOfTwo(first, second, byS - 2);
      const high = sumOfTwo(first, second, byS);
      const error = 4 * Math.sqrt(0.25 / N);
      expect(must).toBeGreaterThan(low - error);
      expect(must).toBeLessThan(high + error);
    },
  );

  it("sums of PERT durations have the mean and the variance that add up from those of each", () => {
    const N = 20_000;
    const likely = [600, 900, 1200, 700];
    const tasks = likely.map((likelyS, k) =>
      task(`t${k}`, "a", { duration: { lowS: likelyS - 200, likelyS, highS: likelyS * 2 } }),
    );
    const plan = apart(tinyPlan({ tasks, placements: likely.map((_, k) => at(`t${k}`, 5100 + 1300 * k)) }));
    const script = scriptOf(plan, {
      placements: plan.schedule.placements.map((one) => ({ ...one, startS: instant(one.startS) })),
    });
    const days = new Days(script.problem, "pert", N, random(5).below(1000));
    const draws = sampleFor(script.problem);
    let sum = 0;
    let square = 0;
    for (let day = 0; day < N; day += 1) {
      days.deal(day, script.order, script.laneOf, draws);
      const one = draws.durationS.reduce((total, seconds) => total + seconds, 0);
      sum += one;
      square += one * one;
    }
    // (low + 4 likely + high) / 6 and (mean - low)(high - mean) / 7, see kernel/spread; rounding up adds half a second each.
    const means = likely.map((m) => (m - 200 + 4 * m + 2 * m) / 6 + 0.5);
    const variances = likely.map((m, k) => ((means[k]! - 0.5 - (m - 200)) * (2 * m - (means[k]! - 0.5))) / 7);
    const mean = means.reduce((total, one) => total + one, 0);
    const variance = variances.reduce((total, one) => total + one, 0);
    expect(Math.abs(sum / N - mean)).toBeLessThan(4 * Math.sqrt(variance / N) + 1);
    const drawn = square / N - (sum / N) ** 2;
    // A variance of so many draws is good to 4 sqrt(2 / N) = 4 %.
    expect(Math.abs(drawn / variance - 1)).toBeLessThan(0.04);
  });
});
