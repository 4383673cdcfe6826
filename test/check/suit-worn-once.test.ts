import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { duration } from "../../src/kernel/index.ts";
import type { Suit } from "../../src/plan/index.ts";
import { plan } from "./cases/suit-worn-once.ts";
import { breachesOf, only } from "./pair.ts";
import { at, eva, task, tinyInput, parsed } from "./tinyPlan.ts";

describe("one suit, one wearer", () => {
  test("suit-worn-once holds where an EVA gives each a suit of their own", () => {
    const shared = plan(2400, true);
    const spare = { ...shared.suits[0]!, id: "spare", name: "spare" };
    const dressed = {
      ...shared,
      suits: [...shared.suits, spare],
      evas: shared.evas.map((one) => (one.id === "eva-2" ? { ...one, suits: { ev2: "spare" } } : one)),
    };
    expect(breachesOf(shared)).toEqual(["suit-worn-once"]);
    expect(breachesOf(dressed)).toEqual([]);
  });

  test("lander-stores goes by the suit of each EVA: a spare one needs no recharge", () => {
    const twice = (suits: Record<string, string>) => {
      const input = tinyInput({
        evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: ["ev1"], suits })],
        tasks: [task("one", "a"), task("two", "a")],
        placements: [at("one", 2000), at("two", 9000, ["ev1"], "eva-2")],
        more: { stores: { absorbentChanges: 0 } },
      });
      return breachesOf(parsed(input));
    };
    expect(twice({})).toEqual(["lander-stores"]);
    expect(twice({ ev1: "suit-2" })).toEqual([]);
  });

  test("the stocks, the load and the emergency oxygen are those of the suit that is worn there", () => {
    // Outside from 1500 to 3500: 2000 s at 60 W. From a it is 300 s home, and nothing of the emergency oxygen is kept back.
    const one = plan(9000, false);
    const outIn = (thin: Partial<Suit>, suits = { ev1: "thin" } as Record<string, string>) => ({
      ...one,
      suits: [...one.suits, { ...one.suits[0]!, id: "thin", name: "thin", electricalW: 60, ...thin }],
      evas: one.evas.map((each) => (each.id === "eva-1" ? { ...each, suits } : each)),
    });
    const reserve = { ...one.suits[0]!.reserve, battery: 0 };
    const lasting = (seconds: number) => ({ reserve, batteryWh: (60 * seconds) / 3600 });
    // A second is left for the rounding of Wh to whole mWs.
    expect(breachesOf(outIn(lasting(1999)))).toContain("battery-reserve");
    expect(breachesOf(outIn(lasting(2600)))).toEqual([]);
    expect(breachesOf(outIn(lasting(1999), {}))).toEqual([]);
    expect(breachesOf(outIn({ emergencyOxygenS: duration(299) }))).toEqual(["walk-back-emergency"]);
    expect(breachesOf(outIn({ emergencyOxygenS: duration(300) }))).toEqual([]);
  });

  test("suit-worn-once names the suit, both wearers and when", () => {
    const found = only(plan(2400, true), "suit-worn-once");
    expect(found.subjects.map(({ kind, id }) => `${kind} ${id}`)).toEqual([
      ...["suit suit", "crew ev1", "eva eva-1", "crew ev2", "eva eva-2"],
    ]);
    expect(found.span).toEqual({ startS: 1500, endS: 3500 });
    expect(found.sentence).toBe(
      "suit is worn by EV1 on eva-1 and by EV2 on eva-2 at once, 0:25 MET to 0:58:20 MET.",
    );
    expect(check(plan(2400, false)).findings).toEqual([]);
  });

  test("suit-worn-once breaks for two on the same EVA", () => {
    const input = tinyInput({ tasks: [task("one", "a")], placements: [at("one", 2000)] });
    const shared = { ...input, crew: input.crew.map((member) => ({ ...member, suit: "suit" })) };
    expect(breachesOf(parsed(shared))).toEqual(["suit-worn-once"]);
    expect(breachesOf(parsed(input))).toEqual([]);
  });

  test("recharge is of the suit, whoever wears it next", () => {
    // In at 3500, out again at 5400 - 900 = 4500: 1000 s later.
    expect(breachesOf(plan(5400, true, 1000))).toEqual([]);
    const found = only(plan(5400, true, 1001), "recharge");
    expect([found.level, found.need, found.have, found.subjects[0]]).toEqual([
      ...["breach", 1001, 1000, { kind: "suit", id: "suit" }],
    ]);
    expect(found.sentence).toBe(
      "suit, worn by EV1 and then by EV2, has 16 min between eva-1 and eva-2; recharging needs 17 min.",
    );
    expect(breachesOf(plan(5400, false, 1001))).toEqual([]);
  });

  test("recharge is asked where one goes out in a suit in the second in which another comes in", () => {
    // 4400 - 900 = 3500: at once, so not worn by two.
    expect(only(plan(4400, true, 1), "recharge")).toMatchObject({ need: 1, have: 0 });
    expect(breachesOf(plan(4400, true, 1))).toEqual(["recharge"]);
  });

  /**
   * One suit on four EVAs, out 900 s before the task and in 900 s after it: EV1 1100 to 3500, EV2 4100 to 10,900, EV1 5100 to 6900, EV1 from 900 s
   * before `lastS`.
   */
  const four = (lastS: number, leastS: number) => {
    const input = tinyInput({
      evas: ["ev1", "ev2", "ev1", "ev1"].map((id, k) => eva(`eva-${k + 1}`, { crew: [id] })),
      tasks: [600, 5000, 0, 0].map((likelyS, k) => task(`t${k}`, "a", { duration: { likelyS } })),
      placements: [2000, 5000, 6000, lastS].map((startS, k) =>
        at(`t${k}`, startS, [k === 1 ? "ev2" : "ev1"], `eva-${k + 1}`),
      ),
      rules: { recharge: { leastS } },
    });
    const { findings } = check(
      parsed({ ...input, crew: input.crew.map((member) => ({ ...member, suit: "suit" })) }),
    );
    return (rule: string) =>
      findings
        .filter((one) => one.rule === rule && one.subjects[0]?.kind === "suit")
        .map(({ subjects }) => subjects.filter(({ kind }) => kind === "eva").map(({ id }) => id));
  };

  test("suit-worn-once and recharge: each outing is held to that one before it which ends last", () => {
    const both = four(11_700, 0)("suit-worn-once");
    expect(both).toHaveLength(2);
    expect(both).toEqual(
      expect.arrayContaining([
        ["eva-2", "eva-3"],
        ["eva-2", "eva-4"],
      ]),
    );
    // Out at 11,400, 500 s after EV2 is in; the outing just before was in long ago.
    expect(four(12_300, 500)("recharge")).toEqual([]);
    expect(four(12_300, 501)("recharge")).toEqual([["eva-2", "eva-4"]]);
  });

  test("lander-stores recharge the suit of the first for the second", () => {
    const stores = (absorbentChanges: number, shared: boolean) => {
      const one = plan(9000, shared);
      return breachesOf({ ...one, stores: { ...one.stores, absorbentChanges } });
    };
    expect(stores(0, true)).toEqual(["lander-stores"]);
    expect(stores(1, true)).toEqual([]);
    expect(stores(0, false)).toEqual([]);
  });
});
