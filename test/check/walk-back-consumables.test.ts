import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { climbing, homeS, partsOf, pit, plan } from "./cases/walk-back-consumables.ts";
import { only } from "./pair.ts";
import { at, eva, task, tinyPlan } from "./tinyPlan.ts";

/** The same rules as warnings, the stock with nothing kept back. */
const warned = (batteryWh: number) => {
  const parts = partsOf(batteryWh / 2);
  const level = "warning" as const;
  return tinyPlan({
    ...parts,
    rules: { ...parts.rules, reserve: { level }, walkback: { ...parts.rules?.walkback, level } },
  });
};

describe("walk-back on what is left", () => {
  test("walk-back-consumables as a warning: a stock may be used up on the way home, but not run out", () => {
    expect(only(warned(13), "walk-back-consumables").level).toBe("tight");
    expect(check(warned(13)).score.breaches).toBe(0);
    const out = only(warned(12.994), "walk-back-consumables");
    expect([out.level, out.need, out.have, out.sentence]).toEqual([
      "breach",
      200,
      199,
      "EV1 on eva-1 needs 4 min to walk back from out at 0:18:20 MET; battery runs out after 3 min of walking back.",
    ]);
    // The day itself, 12 Wh, is still flown with what there is.
    expect(only(warned(12.994), "battery-reserve").level).toBe("tight");
  });

  test("walk-back-consumables as a warning: a stock that has run out is said to have, from the first second on", () => {
    // 1100 s at 0.01 Wh/s are 11 Wh: of 11.005 half a second is left, of 10.999 a tenth of one is missing.
    const said = (batteryWh: number) => only(warned(batteryWh), "walk-back-consumables").sentence;
    expect(said(11.005)).toContain("; battery runs out after 0 min of walking back.");
    expect(said(10.999)).toContain("; battery has run out by then.");
  });

  test("walk-back-consumables counts the smallest draw there is, a milliwatt", () => {
    // 1100 mWs are drawn at the end of the work and 200 more on the way back: of 1299 they carry 199 s.
    const small = partsOf(1);
    const found = only(
      tinyPlan({
        ...small,
        suit: { electricalW: 0.001, batteryWh: 1299.5 / 3_600_000, reserve: { battery: 0 } },
      }),
      "walk-back-consumables",
    );
    expect([found.level, found.need, found.have]).toEqual(["breach", 200, 199]);
  });

  test("walk-back-consumables as a warning: what runs out back at the lander is told by the reserve alone", () => {
    // 12 Wh carry the walk home and 1 h 20 min of airlock work are 48 Wh more: at the lander nothing is walked any more.
    const parts = partsOf(6.5);
    const level = "warning" as const;
    const dry = tinyPlan({
      ...parts,
      evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 4800 })],
      rules: { ...parts.rules, reserve: { level }, walkback: { ...parts.rules?.walkback, level } },
    });
    const found = check(dry).findings.map(({ rule, level: one }) => [rule, one]);
    expect(found).toContainEqual(["battery-reserve", "breach"]);
    expect(found).not.toContainEqual(["walk-back-consumables", "breach"]);
  });

  test("walk-back-consumables names what bounds it, and from when", () => {
    const found = only(plan(12.5), "walk-back-consumables");
    expect(found.sentence).toBe(
      "EV1 on eva-1 needs 4 min to walk back from out at 0:18:20 MET; battery above the reserve carries 2 min of walking back.",
    );
    expect(found.span).toEqual({ startS: 1100, endS: 1101 });
  });

  test("walk-back-consumables is tight when less than the plan's time is to spare", () => {
    // 13.6 Wh less 11 Wh carries 260 s: 60 s to spare.
    expect(only(plan(13.6, 61), "walk-back-consumables").level).toBe("tight");
    expect(check(plan(13.6, 60)).findings).toEqual([]);
  });

  test("walk-back-consumables: a close walk-back is tight though less is left at the end of the airlock work", () => {
    // 16 Wh above the reserve: 500 s are left at the end of the work, 200 s home; 100 s once 300 s of airlock work are done.
    const parts = partsOf(16, 301);
    const airlock = (tightS: number) =>
      tinyPlan({
        ...parts,
        evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 300 })],
        rules: { ...parts.rules, tightS },
      });
    const found = only(airlock(301), "walk-back-consumables");
    expect([found.level, found.need, found.have]).toEqual(["tight", 200, 500]);
    expect(check(airlock(300)).findings).toEqual([]);
  });

  test("walk-back-consumables: what nothing draws on bounds nothing", () => {
    const idle = tinyPlan({
      tasks: [task("work", "a")],
      placements: [at("work", 2000)],
      suit: { electricalW: 0, batteryWh: 0 },
    });
    expect(check(idle).findings).toEqual([]);
    // Emergency oxygen, 20 000 s, is the bound then.
    expect(check(idle).reach[0]!.allowed[0]!.value).toBe(20_000);
  });

  test("walk-back-consumables: a climb home draws more than the level, and a descent does too", () => {
    const { up, level, down } = climbing();
    expect(up).toBeGreaterThan(1.1 * level);
    expect(down).toBeGreaterThan(level);
    // What would carry the walk home on the level is not enough out of the pit.
    expect(only(pit(-50, level * homeS), "walk-back-consumables").level).toBe("breach");
    const allowed = check(pit(-50, up * homeS)).reach[0]!.allowed;
    expect(allowed).toContainEqual({ atS: 3000, value: homeS });
  });

  test("the reach track shows the allowed time shrink with what is left", () => {
    // 13 Wh at 0.01 Wh/s: 1300 s at egress, 1200 at the work's start, 200 at its end, 100 back at the lander.
    expect(check(plan(13)).reach[0]!.allowed).toEqual([
      { atS: 0, value: 1300 },
      { atS: 100, value: 1200 },
      { atS: 1100, value: 200 },
      { atS: 1200, value: 100 },
    ]);
  });
});
