import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { only, pair } from "./pair.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "./tinyPlan.ts";

/**
 * EV1 alone works 1000 s at 300 W at the lander: no walking, no airlock work. With half of each stock as reserve, the
 * stock that just does is twice what 1000 s draw.
 *
 * Oxygen at RQ 0.85: 300 * 1.4276e-3 / (4.8811 * 4184) kg/s = 20 970.96 up to 20 971 micrograms/s -> 2 * 20 971 000.
 * CO2: 300 * 0.85 * 1.96348e-3 / (4.8811 * 4184) kg/s = 24 516.4 up to 24 517 micrograms/s -> 2 * 24 517 000.
 * Water, no absorbent heat: (300 + 36) W / 2000 kJ/kg = 168 000 micrograms/s -> 2 * 0.168 kg.
 * Battery: 36 W * 1000 s = 10 Wh -> 20 Wh.
 */
const STOCKS = { oxygenKg: 0.041942, co2Kg: 0.049034, waterKg: 0.336, batteryWh: 20 };

function plan(suit: TinyParts["suit"], rules: TinyParts["rules"] = {}): Plan {
  return tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
    tasks: [task("work", "lander", { effort: { watts: 300 }, duration: { likelyS: 1000 } })],
    placements: [at("work", 0)],
    // The walk-back rule asks for the same reserve at the lander; as a warning it leaves the stage to this rule.
    rules: { walkback: { level: "warning" }, ...rules },
    suit: {
      leakKgH: 0,
      electricalW: 36,
      coolingKjKg: 2000,
      absorbentKjKg: 0,
      reserve: { oxygen: 0.5, co2: 0.5, water: 0.5, battery: 0.5 },
      ...STOCKS,
      ...suit,
    },
  });
}

describe("reserves at ingress", () => {
  const exact = plan({});

  // One microgram less in stock: 41 941 999 less 20 971 000 leaves 20 970 999, half rounded up is 20 971 000.
  pair("oxygen-reserve", {
    breaks: ["a microgram less than needed", plan({ oxygenKg: 0.041941999 })],
    says: { need: 0.020971, have: 0.020970999 },
    holds: ["exactly the reserve is left", exact],
  });
  pair("co2-reserve", {
    breaks: ["a microgram less than needed", plan({ co2Kg: 0.049033999 })],
    says: { need: 0.024517, have: 0.024516999 },
    holds: ["exactly the reserve is left", exact],
  });
  pair("water-reserve", {
    breaks: ["a microgram less than needed", plan({ waterKg: 0.335999999 })],
    says: { need: 0.168, have: 0.167999999 },
    holds: ["exactly the reserve is left", exact],
  });
  // 19.8 Wh less 10 Wh leaves 9.8; half of 19.8 is 9.9.
  pair("battery-reserve", {
    breaks: ["a fifth of a watt-hour less", plan({ batteryWh: 19.8 })],
    says: { need: 9.9, have: 9.8 },
    holds: ["exactly the reserve is left", exact],
  });

  test("oxygen-reserve as a warning is tight, never a breach", () => {
    const warned = plan(
      { oxygenKg: 0.04 },
      { reserve: { level: "warning" }, walkback: { level: "warning" } },
    );
    expect(only(warned, "oxygen-reserve").level).toBe("tight");
    expect(check(warned).score.breaches).toBe(0);
  });

  const warnings = { reserve: { level: "warning" }, walkback: { level: "warning" } } as const;

  test.each([
    ["oxygen", "oxygen", { oxygenKg: 0.020971 }, { oxygenKg: 0.020970999 }],
    ["co2", "CO2 capacity", { co2Kg: 0.024517 }, { co2Kg: 0.024516999 }],
    ["water", "cooling water", { waterKg: 0.168 }, { waterKg: 0.167999999 }],
    ["battery", "battery power", { batteryWh: 10 }, { batteryWh: 9.9999 }],
  ])(
    "%s-reserve as a warning: a stock that runs out is a breach, one used up is not",
    (name, called, up, out) => {
      const rule = `${name}-reserve` as "oxygen-reserve";
      expect(only(plan(up, warnings), rule).level).toBe("tight");
      expect(check(plan(up, warnings)).score.breaches).toBe(0);
      const found = only(plan(out, warnings), rule);
      expect(found.level).toBe("breach");
      expect(found.sentence).toMatch(
        `EV1 on eva-1 runs out of ${called} at 0:16:39 MET, 1 s before ingress, `,
      );
    },
  );

  test("oxygen-reserve: a purge that takes more than there is runs out at egress", () => {
    const { sentence, level } = only(plan({ oxygenKg: 0.03, purgeKg: 0.04 }, warnings), "oxygen-reserve");
    expect(level).toBe("breach");
    // 0.03 kg less the purge of 0.04 and 0.020971 for the work.
    expect(sentence).toMatch("runs out of oxygen at 0:00 MET, 17 min before ingress, 0.031 kg short;");
  });

  test("battery-reserve is tight when less than the plan's share is above it", () => {
    // 20.6 Wh less 10 leaves 10.6, reserve 10.3: 0.3 above is 1.46 % of the stock.
    const near = plan({ batteryWh: 20.6 }, { reserve: { tight: 0.015 }, walkback: { level: "warning" } });
    expect(only(near, "battery-reserve").level).toBe("tight");
    const far = plan({ batteryWh: 20.6 }, { reserve: { tight: 0.0145 }, walkback: { level: "warning" } });
    expect(check(far).findings.filter(({ rule }) => rule === "battery-reserve")).toEqual([]);
  });

  test("battery-reserve says from when on it is broken, and when a stock runs out", () => {
    // Reserve half of 16 Wh = 8 Wh, drawn at 36 W: touched after 8 Wh = 800 s.
    const low = only(plan({ batteryWh: 16 }), "battery-reserve");
    expect(low.span).toEqual({ startS: 800, endS: 1000 });
    expect(low.sentence).toBe("EV1 on eva-1 comes in with 6.0 Wh of battery; the reserve is 8.0 Wh.");
    // 15.99 Wh: 7.995 Wh down to the reserve, 799.5 s: from second 799 on.
    expect(only(plan({ batteryWh: 15.99 }), "battery-reserve").span?.startS).toBe(799);
    // 9 Wh in stock, 10 Wh drawn: 1 Wh short.
    expect(only(plan({ batteryWh: 9 }), "battery-reserve").sentence).toBe(
      // At 36 W they last 900 s: out at 15 min, 100 s before ingress.
      "EV1 on eva-1 runs out of battery power at 0:15 MET, 2 min before ingress, 1.0 Wh short; the reserve is 4.5 Wh.",
    );
  });

  test("an empty stock that is drawn on is one whole stock short; one that nothing draws on is just enough", () => {
    const drawn = check(plan({ batteryWh: 0 }));
    expect(drawn.margins.find(({ consumable }) => consumable === "battery")?.margin).toBe(-1);
    expect(drawn.score.worstMargin).toBe(-10_000);
    const idle = check(plan({ batteryWh: 0, electricalW: 0 }));
    expect(idle.margins.find(({ consumable }) => consumable === "battery")?.margin).toBe(0);
    expect(idle.findings).toEqual([]);
  });

  test("the worst margin is in ten-thousandths of the stock, rounded down", () => {
    // Battery 30 Wh: 30 - 10 - 15 = 5 of 30 = 16.666 %; the others stand at exactly 0.
    expect(check(exact).score.worstMargin).toBe(0);
    const wide = plan({ oxygenKg: 1, co2Kg: 1, waterKg: 1, batteryWh: 30 });
    expect(check(wide).score.worstMargin).toBe(1666);
    const battery = check(wide).margins.find((track) => track.consumable === "battery");
    // 5 of 30.
    expect(battery?.margin).toBeCloseTo(1 / 6, 12);
    expect(battery).toMatchObject({ stock: 30, reserve: 15 });
    expect(battery?.points).toEqual([
      { atS: 0, value: 30 },
      { atS: 1000, value: 20 },
    ]);
  });
});
