import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { exact, plan } from "./cases/reserves.ts";
import { only } from "./pair.ts";

describe("reserves at ingress", () => {
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
