import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { only, pair } from "./pair.ts";
import { at, task, tinyPlan } from "./tinyPlan.ts";

/** Two samples of 1.5 kg in a box of 2 kg: 5 kg go up. A second, empty box stays behind. */
const plan = (greatestKg: number) =>
  tinyPlan({
    tasks: ["one", "two"].map((id) => task(id, "a", { sample: { container: "box", massKg: 1.5 } })),
    placements: [at("one", 2000), at("two", 3000)],
    rules: { returnMass: { greatestKg } },
    more: {
      containers: ["box", "spare"].map((id) => ({
        id,
        name: id,
        emptyMassKg: 2,
        capacityKg: 100,
        volumeL: 100,
      })),
    },
  });

describe("return mass", () => {
  pair("return-mass", {
    breaks: ["5 kg, a gram less allowed", plan(4.999)],
    says: { need: 4.999, have: 5 },
    holds: ["5 kg, 5 kg allowed", plan(5)],
  });

  test("return-mass is tight within 5 % and told in the verdict", () => {
    // 5 / 5.26 = 95.06 %; 5 / 5.27 = 94.9 %.
    expect(only(plan(5.26), "return-mass").level).toBe("tight");
    expect(check(plan(5.27)).findings).toEqual([]);
    expect(check(plan(5.27)).returnKg).toBe(5);
  });
});
