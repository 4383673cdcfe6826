import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { breachesOf, only, pair } from "./pair.ts";
import { at, task, tinyPlan } from "./tinyPlan.ts";

/** Samples of 0.1, 0.2 and 2.7 kg (3 kg) and 1.1 L each (3.3 L) in one box. */
const plan = (capacityKg: number, volumeL: number) =>
  tinyPlan({
    tasks: [0.1, 0.2, 2.7].map((massKg, i) =>
      task(`t${i}`, "a", { sample: { container: "box", massKg, volumeL: 1.1 } }),
    ),
    placements: [0, 1, 2].map((i) => at(`t${i}`, 2000 + 1000 * i)),
    more: { containers: [{ id: "box", name: "box", emptyMassKg: 1, capacityKg, volumeL }] },
  });

describe("sample container", () => {
  // 0.1 + 0.2 is not 0.3 in binary; in grams 100 + 200 + 2700 = 3000.
  pair("container", {
    breaks: ["3 kg in a box for a gram less", plan(2.999, 9)],
    says: { need: 2.999, have: 3 },
    holds: ["3 kg in a box for 3 kg", plan(3, 9)],
  });
  pair("container", {
    breaks: ["3.3 L in a box of a millilitre less", plan(9, 3.299)],
    says: { need: 3.299, have: 3.3 },
    holds: ["3.3 L in a box of 3.3 L", plan(9, 3.3)],
  });

  test("container is tight within 5 % by mass or by volume, and names the one it is", () => {
    // 3 / 3.15 = 95.2 %, 3 / 3.2 = 93.75 %; 3.3 / 3.47 = 95.1 %, 3.3 / 3.48 = 94.8 %.
    expect(only(plan(3.15, 9), "container")).toMatchObject({ level: "tight", unit: "kg", have: 3 });
    expect(only(plan(9, 3.47), "container")).toMatchObject({ level: "tight", unit: "L", have: 3.3 });
    expect(check(plan(3.2, 3.48)).findings).toEqual([]);
  });

  test("container names both mass and volume in one finding", () => {
    expect(breachesOf(plan(2, 2))).toEqual(["container"]);
    expect(only(plan(2, 2), "container").sentence).toBe(
      "box holds 3 kg of samples and takes 2 kg and 3.3 L of samples and takes 2 L.",
    );
  });
});
