import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/lander-stores.ts";
import { breachesOf, only } from "./pair.ts";

describe("lander stores", () => {
  test("lander-stores: several shortages are one finding", () => {
    const short = plan({ batteryWh: 1, absorbentChanges: 0 });
    expect(breachesOf(short)).toEqual(["lander-stores"]);
    expect(only(short, "lander-stores").sentence).toBe(
      "Recharges draw on the lander's stores for 20.0 Wh of energy and hold 1.0 Wh and 2 absorbent changes and hold 0.",
    );
  });

  test("lander-stores: what is only close is not told beside what is short", () => {
    // 20 Wh of 21 Wh would be tight; the one absorbent change of two is short.
    const found = only(plan({ batteryWh: 21, absorbentChanges: 1 }), "lander-stores");
    expect([found.level, found.need, found.have, found.parts?.map(({ of }) => of)]).toEqual([
      "breach",
      2,
      1,
      ["absorbent"],
    ]);
  });

  test("lander-stores is tight within 5 %", () => {
    // 20 / 21 = 95.2 %, 20 / 21.1 = 94.8 %.
    expect(only(plan({ batteryWh: 21 }), "lander-stores").level).toBe("tight");
    expect(check(plan({ batteryWh: 21.1 })).findings).toEqual([]);
  });
});
