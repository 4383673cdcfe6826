import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { at, eva, place, task, tinyPlan } from "./tinyPlan.ts";

describe("how a schedule is read", () => {
  const plan = tinyPlan({
    tasks: [task("one", "a"), task("two", "b"), task("three", "c", { duration: { likelyS: 100 } })],
    placements: [at("one", 900), at("two", 2000), at("three", 1000, ["ev2"])],
  });
  const verdict = check(plan);
  const [first, second] = verdict.outings;

  test("S3 egress lets the earliest reach the first task in time, ingress waits for the last one home", () => {
    // EV1: 900 - 300 m / 1 m/s = 600; EV2: 1000 - 400 = 600. Earlier: 600. Less airlock work 600: egress 0.
    expect(first?.span.startS).toBe(0);
    // EV1: two ends 2600, 600 m home: 3200. EV2: 1100 + 400 = 1500. Later: 3200. Plus 600: 3800.
    expect(first?.span.endS).toBe(3800);
    expect(second?.span).toEqual(first?.span);
  });

  test("S4 leaves at once, waits at the task, walks home at once, waits at the lander", () => {
    expect(first?.stretches.map(({ kind, span }) => [kind, span.startS, span.endS])).toEqual([
      ["egress", 0, 600],
      ["traverse", 600, 900],
      ["task", 900, 1500],
      ["traverse", 1500, 1800],
      ["wait", 1800, 2000],
      ["task", 2000, 2600],
      ["traverse", 2600, 3200],
      ["ingress", 3200, 3800],
    ]);
    expect(second?.stretches.map(({ kind, span }) => [kind, span.startS, span.endS])).toEqual([
      ["egress", 0, 600],
      ["traverse", 600, 1000],
      ["task", 1000, 1100],
      ["traverse", 1100, 1500],
      ["wait", 1500, 3200],
      ["ingress", 3200, 3800],
    ]);
  });

  test("the sound plan has no findings and adds up", () => {
    expect(verdict.findings).toEqual([]);
    // 300 + 300 + 600 for EV1, 400 + 400 for EV2.
    expect(verdict.walkedM).toEqual({ ev1: 1200, ev2: 800 });
    expect(verdict.walkbackS).toEqual({ one: 300, two: 600, three: 400 });
    expect(verdict.score).toMatchObject({ breaches: 0, walkM: 2000, finishS: 3800, changes: 0 });
  });
});

describe("what is drawn", () => {
  const up = tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    places: [place("lander", 0, 0), { ...place("hill", 300, 0), upM: 30 }],
    tasks: [task("sit", "hill", { effort: "rest" })],
    placements: [at("sit", 2000)],
    crew: [{ id: "ev1", name: "EV1", bodyMassKg: 80, workRateFactor: 1.2, suit: "suit" }],
  });
  const stretches = check(up).outings[0]!.stretches;

  test("S6 airlock work, waiting and tasks by their effort times the factor", () => {
    const of = (kind: string) => stretches.find((one) => one.kind === kind)!.metabolicW;
    // 270 and 100 kcal/h at 4184 J / 3600 s, times 1.2.
    expect(of("egress")).toBeCloseTo(270 * (4184 / 3600) * 1.2, 9);
    expect(of("ingress")).toBe(of("egress"));
    expect(of("task")).toBeCloseTo(100 * (4184 / 3600) * 1.2, 9);
  });

  test("S6 walking by the level rate times the factor and the slope with body and suit", () => {
    const [out, home] = stretches.filter((one) => one.kind === "traverse");
    // atan(30 / 300) = 5.7106 degrees; 80 + 80 kg, 1.62 m/s2, 1 m/s: lift 160 * 1.62 * 0.099504 = 25.791 W.
    const lift = 160 * 1.62 * Math.sin(Math.atan(0.1));
    expect(lift).toBeCloseTo(25.791, 3);
    expect(out!.metabolicW).toBeCloseTo(400 * 1.2 + 3.5 * lift, 9);
    expect(home!.metabolicW).toBeCloseTo(400 * 1.2 + 2.4 * lift * 0.3 ** (5.710593137499643 / 7.65), 9);
  });

  test("S7 every consumable is a whole rate times whole seconds, stretch by stretch", () => {
    const flat = tinyPlan({
      tasks: [task("one", "a", { effort: { watts: 300 } })],
      placements: [at("one", 2000)],
      suit: { leakKgH: 0, oxygenKg: 1 },
    });
    const oxygen = check(flat).margins.find(
      ({ crew, consumable }) => crew === "ev1" && consumable === "oxygen",
    )!;
    // micrograms per second at RQ 0.85, rounded up: 313.8 W 21 936, 400 W 27 962, 300 W 20 971; no waiting.
    const micrograms = [600 * 21_936, 300 * 27_962, 600 * 20_971, 300 * 27_962, 600 * 21_936];
    const left = micrograms.reduce((list, drawn) => [...list, list.at(-1)! - drawn], [1_000_000_000]);
    expect(oxygen.points.map(({ value }) => value)).toEqual(left.map((value) => value / 1e9));
    expect(oxygen.points.map(({ atS }) => atS)).toEqual([1100, 1700, 2000, 2600, 2900, 3500]);
  });
});

describe("where a walker is", () => {
  test("S5 a task with an end place ends there, straight on; the next way begins there", () => {
    const carry = tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"] })],
      tasks: [task("carry", "a", { endPlace: "c", walkM: 500 })],
      placements: [at("carry", 2000)],
    });
    const verdict = check(carry);
    expect(verdict.outings[0]!.stretches.map(({ kind, path, walkM }) => [kind, path, walkM])).toEqual([
      ["egress", ["lander"], 0],
      ["traverse", ["lander", "a"], 300],
      ["task", ["a", "c"], 500],
      ["traverse", ["c", "lander"], 400],
      ["ingress", ["lander"], 0],
    ]);
    expect(verdict.walkbackS).toEqual({ carry: 400 });
  });
});
