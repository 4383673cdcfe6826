import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/container.ts";
import { breachesOf, only } from "./pair.ts";

describe("sample container", () => {
  test("container is tight within 5 % by mass or by volume, and names the one it is", () => {
    // 3 / 3.15 = 95.2 %, 3 / 3.2 = 93.75 %; 3.3 / 3.47 = 95.1 %, 3.3 / 3.48 = 94.8 %.
    expect(only(plan(3.15, 9), "container")).toMatchObject({ level: "tight", unit: "kg", have: 3 });
    expect(only(plan(9, 3.47), "container")).toMatchObject({ level: "tight", unit: "L", have: 3.3 });
    expect(check(plan(3.2, 3.48)).findings).toEqual([]);
  });

  test("container says of a sum in which a sample has no number that it is at least so much", () => {
    const { tasks, ...rest } = plan(2, 2);
    const without = (amount: "massKg" | "volumeL") => ({
      ...rest,
      tasks: tasks.map((one) =>
        one.id === "t0" && one.sample ? { ...one, sample: { ...one.sample, [amount]: 0 } } : one,
      ),
    });
    expect(only(without("volumeL"), "container").sentence).toBe(
      "box holds 3 kg of samples and takes 2 kg and at least 2.2 L of samples and takes 2 L.",
    );
    expect(only(without("massKg"), "container").sentence).toBe(
      "box holds at least 2.9 kg of samples and takes 2 kg and 3.3 L of samples and takes 2 L.",
    );
  });

  test("container names both mass and volume in one finding", () => {
    expect(breachesOf(plan(2, 2))).toEqual(["container"]);
    expect(only(plan(2, 2), "container").sentence).toBe(
      "box holds 3 kg of samples and takes 2 kg and 3.3 L of samples and takes 2 L.",
    );
  });
});
