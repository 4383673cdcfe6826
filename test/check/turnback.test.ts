import { describe, expect, it } from "vitest";
import {
  check,
  ingressLimitsByEva,
  limiterWords,
  recallLimiterWords,
  recallOf,
  recallWords,
} from "../../src/check/index.ts";
import { duration } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "./tinyPlan.ts";

// Work on a from 3000 to 3600, 300 m out at 1 m/s: egress 3000 - 300 - 600 = 2100, back at 3900, in at 4500.
const PARTS: TinyParts = { tasks: [task("x", "a")], placements: [at("x", 3000)] };

function recalled(plan: Plan, atS: number, crew = "ev1") {
  const recall = recallOf(plan, plan.schedule, "eva-1", atS);
  const one = recall?.crew.find((each) => each.crew === crew);
  if (!recall || !one) throw new Error("nobody is out");
  return { recall, one };
}

/** What is broken when work on x takes so long. */
function breaches(plan: Plan, likelyS: number): readonly string[] {
  const tasks = plan.tasks.map((one) =>
    one.id === "x" ? { ...one, duration: { likelyS: duration(likelyS) } } : one,
  );
  return check({ ...plan, tasks })
    .findings.filter(({ level }) => level === "breach")
    .map(({ sentence }) => sentence);
}

describe("the earliest ingress if everything is dropped", () => {
  const plan = tinyPlan(PARTS);

  it("is the walk home from where each is, and the ingress work", () => {
    // At work on a: 3200 + 300 + 600.
    expect(recalled(plan, 3200).recall.earliestS).toBe(4100);
  });

  it("goes back from between two places, where that is sooner", () => {
    // Out since 2700, 100 m from the lander at 2800: back in 100 s. On to a and home would be 200 + 300.
    const { recall, one } = recalled(plan, 2800);
    expect(recall.earliestS).toBe(2800 + 100 + 600);
    expect([one.from, one.to]).toEqual(["lander", "a"]);
    expect(one.share).toBeCloseTo(1 / 3, 12);
    // The walk-back is the worst of the way, wherever on it they are.
    expect(one.walkbackS).toBe(300);
  });

  it("brings the airlock work to its end, and counts what is left of it at the other end", () => {
    expect(recalled(plan, 2200).recall.earliestS).toBe(2700 + 600);
    expect(recalled(plan, 4000).recall.earliestS).toBe(4500);
  });

  it("is said with the latest one, and where the two do not go together that is said", () => {
    const words = (latestIngressS: number) => {
      const of = tinyPlan({ ...PARTS, evas: [eva("eva-1", { latestIngressS })] });
      return recallWords(of, recalled(of, 3200).recall);
    };
    // 4100 is 1:08:20, up to the minute 1:09; 4140 is 1:09, 4099 is 1:08:19, down to the minute 1:08.
    expect(words(4140)).toEqual({
      isShort: false,
      words: "earliest ingress 1:09 if everything is dropped now, latest 1:09 (latest ingress)",
    });
    expect(words(4099)).toEqual({
      isShort: true,
      words:
        "eva-1 cannot be inside by 1:08 (latest ingress): earliest ingress 1:09, if everything is dropped now.",
    });
    expect(recallWords(plan, { ...recalled(plan, 3200).recall, earliestS: null })).toEqual({
      isShort: true,
      words: "Somebody on eva-1 has no way home.",
    });
  });

  it("is nothing while nobody is out", () => {
    expect(recallOf(plan, plan.schedule, "eva-1", 2099)).toBeNull();
    expect(recallOf(plan, plan.schedule, "eva-1", 4500)).toBeNull();
    expect(recallOf(plan, plan.schedule, "eva-9", 3000)).toBeNull();
  });

  it("is unknown where somebody has no way home", () => {
    const wall = { type: "disc", eastM: 300, northM: 0, radiusM: 50 } as const;
    const closed = tinyPlan({
      ...PARTS,
      site: { keepOuts: [{ id: "wall", name: "wall", kind: "walking", shape: wall }] },
    });
    const { recall, one } = recalled(closed, 3200);
    expect(recall.earliestS).toBeNull();
    expect(one.homeS).toBeNull();
    expect(one.startHomeS).toBeNull();
  });
});

describe("ingress no later than, of a day that is over already", () => {
  // Out from 2100 to 4500 at 100 W: 240,000 Ws. Of 60 Wh, 216,000 Ws, a tenth is kept: 45,600 are missing, 456 s at 100 W.
  const over = (level: "breach" | "warning") => {
    const plan = tinyPlan({
      ...PARTS,
      suit: { batteryWh: 60, electricalW: 100, reserve: { battery: 0.1 } },
      rules: { walkback: { level } },
    });
    return ingressLimitsByEva(plan, plan.schedule).get("eva-1")!;
  };
  const of = (level: "breach" | "warning", kind: "reserve" | "walk-back") =>
    over(level).find(({ by }) => by.kind === kind && by.crew === "ev1" && by.consumable === "battery")!
      .ingressS;

  it("is as much sooner as is missing, at the rate it was drawn", () => {
    expect(over("breach")[0]).toEqual({
      ingressS: 4500 - 456,
      by: { kind: "reserve", crew: "ev1", consumable: "battery" },
    });
  });

  it("keeps the reserve on the way back, and the stock itself where that rule only warns", () => {
    expect(of("breach", "walk-back")).toBe(4500 - 456);
    // Away from the lander it is least at the end of the work: 216,000 - 150,000 - 300 s of way back at 100 W are 36,000 Ws, 360 s.
    expect(of("warning", "walk-back")).toBe(4500 + 360);
    expect(of("warning", "reserve")).toBe(4500 - 456);
  });
});

describe("the latest moment to start home", () => {
  // Each bound alone: ingress no later than `ingressS`, and start home 300 + 600 s before that from a.
  const BOUNDS: readonly (readonly [words: string, parts: TinyParts, ingressS: number])[] = [
    ["longest EVA", { evas: [eva("eva-1", { longestS: 7000 })] }, 2100 + 7000],
    ["latest ingress", { evas: [eva("eva-1", { latestIngressS: 9000 })] }, 9000],
    ["liftoff", { stay: { lengthS: 9500 } }, 9500],
    [
      "Sleep",
      {
        stay: {
          blocks: [{ id: "s", name: "Sleep", kind: "sleep", startS: 9600, endS: 20_000, crew: ["ev2"] }],
        },
      },
      9600,
    ],
    ["time outside in the stay, EV1", { rules: { duty: { stayS: 5000 } } }, 2100 + 5000],
    // 0.24 kg an hour: 0.5 kg last 7500 s.
    ["drinking water of EV1", { suit: { drinkKg: 0.5 } }, 2100 + 7500],
  ];

  it.each(BOUNDS)("follows from %s", (words, parts, ingressS) => {
    const plan = tinyPlan({ ...PARTS, ...parts });
    const { recall, one } = recalled(plan, 3200);
    expect(recall.latest.ingressS).toBe(ingressS);
    expect(limiterWords(plan, recall.latest.by)).toBe(words);
    // Until they start home the suit is counted on at the hardest work; another bound is what it is.
    const atWork = /reserve|for the walk-back/.test(words) ? ", at the hardest work until then" : "";
    expect(recallLimiterWords(plan, recall.latest.by)).toBe(`${words}${atWork}`);
    expect(one.startHomeS).toBe(ingressS - 300 - 600);
    expect(one.over).toBeNull();
    // The judge says the same: at work on a until then all holds, a second longer and it does not.
    expect(breaches(plan, one.startHomeS! - 3000)).toEqual([]);
    expect(breaches(plan, one.startHomeS! - 3000 + 1)).not.toEqual([]);
    // EV2 waits at the hatch and may do so for 300 s longer.
    expect(recalled(plan, 3200, "ev2").one.startHomeS).toBe(ingressS - 600);
    expect(ingressLimitsByEva(plan, plan.schedule).get("eva-1")![0]!.ingressS).toBe(ingressS);
  });

  it("says how much over it is", () => {
    // In by 4000 needs a start at 4000 - 600 - 300 = 3100; at 3200 that is 100 s ago.
    const { one, recall } = recalled(
      tinyPlan({ ...PARTS, evas: [eva("eva-1", { latestIngressS: 4000 })] }),
      3200,
    );
    expect(one.startHomeS).toBe(3100);
    expect(one.over).toEqual({ amount: 100, unit: "s" });
    expect(recall.earliestS).toBe(4100);
  });

  it("counts a battery at the hardest work to come, the way home and the ingress work", () => {
    // 100 W at any work: 0.2 of 1000 Wh kept; 800 Wh last 28,800 s from 2100: in by 30,900.
    const suit = { batteryWh: 1000, electricalW: 100, reserve: { battery: 0.2 } };
    const plan = tinyPlan({ ...PARTS, suit });
    const { recall, one } = recalled(plan, 3200);
    expect(recall.latest).toEqual({
      ingressS: 30_900,
      by: { kind: "reserve", crew: "ev1", consumable: "battery" },
    });
    expect(one.startHomeS).toBe(30_900 - 900);
    const hardPlan = tinyPlan({ ...PARTS, suit: { ...suit, workingW: 200 } });
    const hard = recalled(hardPlan, 3200).one;
    // At 3200: egress 600 s at 200 W, 300 s at 100, 200 s at 200; home 300 s at 100 and 600 s at 200. Of 2,880,000 Ws
    // 120,000 + 30,000 + 40,000 are gone and 30,000 + 120,000 are kept: 2,540,000 / 200 = 12,700 s more on a.
    expect(hard.startHomeS).toBe(3200 + 12_700);
    expect(breaches(hardPlan, 200 + 12_700)).toEqual([]);
    expect(breaches(hardPlan, 200 + 12_701)).not.toEqual([]);
  });

  it("keeps what the walk-back draws", () => {
    // Way and walk-back take 300 s; the walk-back at 1500 W takes more CO2 capacity than the way and the ingress work. Work at
    // 500 W is the hardest of what is to come, the way at 400 W is not.
    const rules = { walkback: { metabolicW: 1500 } };
    const plan = tinyPlan({
      ...PARTS,
      rules,
      evas: [eva("eva-1", { ingressWorkS: 0 })],
      tasks: [task("x", "a", { effort: { watts: 500 } })],
      suit: { co2Kg: 0.2 },
    });
    const { one } = recalled(plan, 3200);
    expect(one.by).toEqual({ kind: "walk-back", crew: "ev1", consumable: "co2" });
    expect(one.startHomeS).toBeGreaterThan(3200);
    expect(breaches(plan, one.startHomeS! - 3000)).toEqual([]);
    expect(breaches(plan, one.startHomeS! - 3000 + 1)).not.toEqual([]);
  });

  it("says what a suit is short of, if it is", () => {
    // 1100 s from 2100 to 3200 at 100 W are 30.6 Wh; 900 s more are 25 Wh: of 50 Wh with 5 kept 10.56 Wh are missing.
    const plan = tinyPlan({ ...PARTS, suit: { batteryWh: 50, electricalW: 100, reserve: { battery: 0.1 } } });
    const { one, recall } = recalled(plan, 3200);
    expect(one.over).toEqual({ amount: expect.closeTo((2000 * 100) / 3600 - 45, 9) as number, unit: "Wh" });
    expect(limiterWords(plan, one.by)).toBe("battery of EV1, with its reserve");
    expect(recall.latest.ingressS).toBe(recall.earliestS);
    expect(one.startHomeS).toBe(3200);
  });

  it("is over where emergency oxygen does not reach home", () => {
    const { one } = recalled(tinyPlan({ ...PARTS, suit: { emergencyOxygenS: 240 } }), 3200);
    expect(one.by).toEqual({ kind: "emergency", crew: "ev1" });
    expect(one.over).toEqual({ amount: 60, unit: "s" });
  });

  it("lets later EVAs wait, which paper does not", () => {
    const plan = tinyPlan({
      tasks: [task("x", "a"), task("y", "a")],
      placements: [at("x", 3000), at("y", 20_000, ["ev1"], "eva-2")],
      evas: [eva("eva-1"), eva("eva-2")],
      rules: { recharge: { leastS: 7200 } },
    });
    expect(recalled(plan, 3200).recall.latest.by.kind).toBe("latest-ingress");
    // Egress of the second at 20,000 - 900: in by 19,100 - 7200.
    const [first] = ingressLimitsByEva(plan, plan.schedule).get("eva-1")!;
    expect(first!.ingressS).toBe(11_900);
    expect(limiterWords(plan, first!.by)).toBe("recharge of EV1 before eva-2");
  });

  it("keeps the recharge before somebody else wears the suit", () => {
    const own = tinyPlan({
      tasks: [task("x", "a"), task("y", "a")],
      placements: [at("x", 3000), at("y", 20_000, ["ev2"], "eva-2")],
      evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: ["ev2"] })],
      rules: { recharge: { leastS: 7200 } },
    });
    expect(ingressLimitsByEva(own, own.schedule).get("eva-1")![0]!.by.kind).toBe("latest-ingress");
    const plan = { ...own, crew: own.crew.map((one) => ({ ...one, suit: "suit" })) };
    const [first] = ingressLimitsByEva(plan, plan.schedule).get("eva-1")!;
    expect(first!.ingressS).toBe(20_000 - 900 - 7200);
    expect(limiterWords(plan, first!.by)).toBe("recharge of EV2 before eva-2");
  });

  it("ends where somebody else goes out in the suit in the very second of ingress", () => {
    // In at 4500; the other's work on a at 5400 has its egress at 5400 - 300 - 600.
    const own = tinyPlan({
      tasks: [task("x", "a"), task("y", "a")],
      placements: [at("x", 3000), at("y", 5400, ["ev2"], "eva-2")],
      evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: ["ev2"] })],
    });
    const plan = { ...own, crew: own.crew.map((one) => ({ ...one, suit: "suit" })) };
    expect(ingressLimitsByEva(plan, plan.schedule).get("eva-1")![0]).toEqual({
      ingressS: 4500,
      by: { kind: "recharge", crew: "ev2", eva: "eva-2" },
    });
  });

  it("follows from no stock that nothing draws on, however small", () => {
    const plan = tinyPlan({ ...PARTS, suit: { electricalW: 0, batteryWh: 0.001, reserve: { battery: 0 } } });
    expect(recalled(plan, 3200).recall.latest.by.kind).toBe("latest-ingress");
  });
});
