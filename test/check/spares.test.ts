import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "./tinyPlan.ts";

/** What `rule` has to spare on the day of `parts`, EV1 alone. */
const spare = (rule: string, parts: TinyParts) =>
  check(tinyPlan({ evas: [eva("eva-1", { crew: ["ev1"] })], ...parts })).spares.find(
    (one) => one.rule === rule,
  );

describe("what a rule has to spare", () => {
  test("blast-keep-out: the nearest instrument that is left, not a deployment that is switched off", () => {
    const left = task("left", "a", { kind: "deployment" });
    const off = task("off", "lander", { kind: "deployment", instrument: false });
    const rules = { blast: { leastM: 100 } };
    // 300 m out, 100 asked for.
    expect(
      spare("blast-keep-out", { tasks: [left, off], placements: [at("left", 2000), at("off", 4000)], rules }),
    ).toMatchObject({ unit: "m", spare: 200, subjects: [{ id: "left" }, { id: "a" }] });
    expect(spare("blast-keep-out", { tasks: [off], placements: [at("off", 4000)], rules })?.spare).toBe(
      "untested",
    );
  });

  test("carry: what is left of the limit of the task that comes nearest to it", () => {
    // 162 N at 1.62 m/s2 are 100 kg.
    const tasks = [task("light", "a", { massOutKg: 20 }), task("heavy", "a", { massOutKg: 70 })];
    const placements = [at("light", 2000), at("heavy", 4000)];
    expect(spare("carry", { tasks, placements, rules: { carry: { greatestN: 162 } } })).toMatchObject({
      unit: "kg",
      spare: 30,
      subjects: [{ id: "heavy" }],
    });
  });

  test("walk-back-emergency: what is left of the emergency oxygen at the farthest, and not known without a way home", () => {
    // 300 m out at 1 m/s, with 20 000 s of emergency oxygen and no reserve.
    const day = { tasks: [task("x", "a")], placements: [at("x", 2000)] };
    expect(spare("walk-back-emergency", day)).toMatchObject({ unit: "s", spare: 19_700 });
    const wall = {
      id: "wall",
      name: "Wall",
      kind: "walking" as const,
      shape: { type: "disc" as const, eastM: 300, northM: 0, radiusM: 50 },
    };
    expect(spare("walk-back-emergency", { ...day, site: { keepOuts: [wall] } })?.spare).not.toBe(19_700);
  });

  test("eva-distance and stay-distance: what is left of both, by who has walked most", () => {
    // 300 m out and back.
    const day = {
      tasks: [task("x", "a")],
      placements: [at("x", 2000)],
      rules: { distance: { evaM: 1000, stayM: 2000 } },
    };
    expect(spare("eva-distance", day)).toMatchObject({ unit: "m", spare: 400 });
    expect(spare("stay-distance", day)).toMatchObject({ unit: "m", spare: 1400 });
  });
});
