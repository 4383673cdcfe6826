import { describe, expect, it } from "vitest";
import { goIfs, homeIfs } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { at, eva, place, task, tinyPlan } from "./tinyPlan.ts";

/**
 * Battery alone, since it is drawn at 100 W whatever is done: 1000 Wh, a tenth of it kept. b is 600 m out, 600 s at 1 m/s, 100 * 600 / 3600 =
 * 16.67 Wh; ingress takes 600 s, as much again.
 */
const SUIT = { batteryWh: 1000, electricalW: 100, reserve: { battery: 0.1 } };
const EVA = eva("eva-1", { crew: ["ev1"], egressWorkS: 600, ingressWorkS: 600 });
const plan = (more: Parameters<typeof tinyPlan>[0] = {}) =>
  tinyPlan({
    suit: SUIT,
    evas: [EVA],
    tasks: [task("one", "b", { duration: { likelyS: 1200 } })],
    placements: [at("one", 3000, ["ev1"])],
    ...more,
  });

describe("HOME IF (G1)", () => {
  const battery = (of: ReturnType<typeof plan>) =>
    homeIfs(of).map(({ at: where, task: id, walkbackS, leastPct }) => [
      where,
      id,
      walkbackS,
      leastPct?.battery,
    ]);

  it("is reserve, walk-back and ingress of the full stock, rounded up", () => {
    // At b 100 + 16.67 + 16.67 = 133.33 Wh: 14 %. At the lander 116.67 Wh: 12 %.
    expect(battery(plan())).toEqual([
      ["way", "one", 600, 14],
      ["task", "one", 600, 14],
      ["way", null, 600, 14],
      ["lander", null, 0, 12],
    ]);
  });

  it("is a whole % that is just enough, and not the next", () => {
    // 720 s of ingress take 20 Wh: at the lander 120 Wh, 12 % to the last bit. 721 s are more.
    const ending = (ingressWorkS: number) => battery(plan({ evas: [{ ...EVA, ingressWorkS }] })).at(-1);
    expect([ending(720), ending(721)]).toEqual([
      ["lander", null, 0, 12],
      ["lander", null, 0, 13],
    ]);
  });

  it("is not known where there is no way home, nor of a stock that a suit does not have", () => {
    const walled = plan({
      places: [place("lander", 0, 0), place("b", 600, 0)],
      site: {
        keepOuts: [
          {
            id: "wall",
            name: "wall",
            kind: "walking",
            shape: { type: "disc", eastM: 600, northM: 0, radiusM: 30 },
          },
        ],
      },
    });
    expect(homeIfs(walled).find(({ at: where }) => where === "task")).toMatchObject({
      walkbackS: null,
      leastPct: null,
    });
    const bare = plan({ suit: { ...SUIT, batteryWh: 0 } });
    expect(homeIfs(bare).every(({ leastPct }) => leastPct?.battery === null)).toBe(true);
  });
});

describe("GO IF (G2)", () => {
  it("is what the planned EVA draws and the reserve", () => {
    // Out at 3000 - 600 - 600 = 1800, in at 4200 + 600 + 600 = 5400: 3600 s, 100 Wh; with the reserve 200 Wh.
    expect(goIfs(plan())).toMatchObject([{ eva: "eva-1", crew: "ev1", leastPct: { battery: 20 } }]);
  });

  it("counts with the egress and ingress that are printed", () => {
    // A minute sooner out and a minute later in: 120 s more, 3.3 Wh of 1000.
    const printed = {
      egressS: new Map([["eva-1", instant(1740)]]),
      ingressS: new Map([["eva-1", instant(5460)]]),
    };
    expect(goIfs(plan(), printed)).toMatchObject([{ leastPct: { battery: 21 } }]);
  });
});
