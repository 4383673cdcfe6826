import { describe, expect, it } from "vitest";
import type { TriedRelaxation, WhyReport } from "../../../../src/answers/index.ts";
import { check } from "../../../../src/check/index.ts";
import { applyEdit, type Plan } from "../../../../src/plan/index.ts";
import { benchReasons, greedy, whyRun } from "../../../../src/solver/index.ts";
import { at, eva, place, task, tinyPlan, type TinyParts } from "../../../check/tinyPlan.ts";

/** Small days on the flat site: 1 m/s, lander to a 300 s, airlock work 600 s at both ends. */

function why(plan: Plan, wanted: string | null): WhyReport<TriedRelaxation> {
  const run = whyRun(plan, plan.schedule, wanted, { seed: 1, clock: () => 0, iterations: 6 });
  while (run.step(1)) continue;
  return run.report();
}

/** One crew member, one outing of at most `longestS`. */
function lone(longestS: number, parts: TinyParts): Plan {
  return tinyPlan({ evas: [eva("eva-1", { crew: ["ev1"], longestS })], ...parts });
}

const kinds = (report: WhyReport<TriedRelaxation>): string[] =>
  (report.conflict?.causes ?? []).map((one) => one.kind).sort();
const ofKind = (report: WhyReport<TriedRelaxation>, kind: string) =>
  report.relaxations.filter((one) => one.kind === kind);

describe("why not", () => {
  it("offers exactly the minutes that an EVA is too short, or the other task, and claims no other figure", () => {
    // Both at a: 600 + 300 + 600 + 600 + 300 + 600 = 3000 s; at most 2500 s. 500 s are missing: 8 min 20 s, so 9 min.
    const plan = lone(2500, {
      tasks: [task("one", "a", { worth: 5 }), task("two", "a", { worth: 7 })],
      placements: [at("one", 900)],
    });
    const report = why(plan, "two");
    expect(report.state).toBe("conflict");
    // The only figure is the one that was tried.
    expect(report.sentence).not.toMatch(/\d min/);
    expect(JSON.stringify(report)).not.toMatch(/missing|short/i);
    expect(kinds(report)).toEqual(["longest", "placement"]);
    expect(report.conflict).toMatchObject({ certainty: "proved", minimal: true });
    expect(ofKind(report, "longest").map((each) => each.steps)).toEqual([9]);
    expect(report.relaxations.map((each) => [each.kind, each.cost.worthLost])).toEqual([
      ["longest", 0],
      ["exchange", 5],
    ]);
  });

  it("keeps a task on the bench whose tool is missing, says so, and offers the tool", () => {
    const plan = lone(36_000, {
      tasks: [task("one", "a", { worth: 5, equipment: [{ equipment: "drill" }] })],
      more: { equipment: [{ id: "drill", name: "Drill", count: 0 }] },
    });
    expect(greedy(plan).placements).toEqual([]);
    expect(benchReasons(plan, plan.schedule).map((one) => one.sentence)).toEqual([
      "Drill is missing: there are 0 of the 1 that it needs.",
    ]);
    const report = why(plan, "one");
    expect(report.conflict?.causes.map((one) => one.sentence)).toEqual(["Drill is missing: there are 0."]);
    expect(ofKind(report, "equipment").map((one) => [one.steps, one.sentence])).toEqual([
      [1, "There is 1 of Drill instead of none."],
    ]);
    expect(greedy({ ...plan, equipment: [{ ...plan.equipment[0]!, count: 1 }] }).placements).toHaveLength(1);
  });

  it("places nothing on light that nobody knows, and says so", () => {
    const plan = lone(36_000, {
      tasks: [task("one", "a", { worth: 5, light: "lit" }), task("two", "a", { worth: 5, relay: true })],
      stay: { earthLink: true },
      more: { body: { ephemeris: "moon" } },
    });
    expect(greedy(plan).placements).toEqual([]);
    expect(benchReasons(plan, plan.schedule).map((one) => one.sentence)).toEqual([
      "It asks for ground in the sun or in shadow; which it is there is unknown: no heights are known.",
      "It needs the relay; no pass is long enough, and whether the Earth is in view is unknown: no heights are known.",
    ]);
  });

  it("sends nobody out where two of an EVA wear one suit, and says who and which", () => {
    const own = tinyPlan({ tasks: [task("one", "a", { worth: 5 })] });
    const shared = { ...own, crew: own.crew.map((member) => ({ ...member, suit: "suit" })) };
    expect(greedy(own).placements).toHaveLength(1);
    expect(greedy(shared).placements).toEqual([]);
    const said = "EV1 and EV2 wear one suit, suit: eva-1 cannot be flown.";
    expect(benchReasons(shared, shared.schedule).map((one) => one.sentence)).toEqual([said]);
    expect(why(shared, "one").conflict?.causes.map((one) => one.sentence)).toEqual([said]);
  });

  it("flies EVAs in one suit one after the other, with the recharge between them", () => {
    const day = tinyPlan({
      evas: [
        eva("eva-1", { crew: ["ev1"], latestIngressS: 6000 }),
        eva("eva-2", { crew: ["ev2"], latestIngressS: 9000 }),
      ],
      tasks: ["ev1", "ev2"].map((id) => task(id, "a", { worth: 5, crew: { named: [id] } })),
      rules: { recharge: { leastS: 3000 } },
    });
    // Each is out for 2400 s: 0 to 2400 and, in the same suit, 5400 to 7800.
    const shared = { ...day, crew: day.crew.map((member) => ({ ...member, suit: "suit" })) };
    const { placements } = greedy(shared);
    expect(placements.map((one) => one.startS).sort((a, b) => a - b)).toEqual([900, 6300]);
    expect(check(shared, { placements }).score.breaches).toBe(0);
    expect(greedy(day).placements.map((one) => one.startS)).toEqual([900, 900]);
  });

  it("finds the later end of a window, to the minute", () => {
    // The first is pinned to 900..1500 at a, the second at a too, by 2000 at the latest: ends at 2100 at the soonest, 100 s late.
    const plan = lone(36_000, {
      tasks: [
        task("one", "a", { worth: 5, pin: { startS: 900 } }),
        task("two", "a", { worth: 7, windows: [{ startS: 800, endS: 2000 }] }),
      ],
      placements: [at("one", 900)],
    });
    const report = why(plan, "two");
    expect(kinds(report)).toEqual(["pin", "placement", "window"]);
    expect(ofKind(report, "window").map((each) => each.steps)).toEqual([2]);
    expect(ofKind(report, "pin")).toHaveLength(1);
  });

  it("offers percents of a reserve, asks its owner, and is one percent exact", () => {
    // Electrical load only: 2400 s for one task alone (600 + 300 + 600 + 300 + 600), 3000 s for both. 1000 Wh, 1152 W:
    // 2400 s take 768 Wh, 3000 s take 960 Wh. A reserve of 20 % leaves 800, one of 4 % leaves 960: 16 steps.
    const plan = lone(36_000, {
      suit: { batteryWh: 1000, electricalW: 1152, reserve: { battery: 0.2 } },
      tasks: [task("one", "a", { worth: 5 }), task("two", "a", { worth: 7 })],
      placements: [at("one", 900)],
      rules: { walkback: { level: "warning" } },
    });
    const report = why(plan, "two");
    const [reserve] = ofKind(report, "reserve");
    expect(reserve).toMatchObject({ steps: 16, owner: "the suit engineers" });
    expect(check(applyEdit(plan, reserve!.edit), reserve!.schedule).score.breaches).toBe(0);
  });

  it("offers no way round a safety rule, and says who owns it", () => {
    // b is 600 m out, c 400 m: 721 m apart, at most 500 m. Both have to start at 1300: together they cannot.
    const plan = tinyPlan({
      tasks: [
        task("one", "b", { worth: 5, crew: { named: ["ev1"] }, pin: { startS: 1300 } }),
        task("two", "c", { worth: 7, crew: { named: ["ev2"] }, pin: { startS: 1300 } }),
      ],
      placements: [at("one", 1300, ["ev1"])],
      rules: { separation: { greatestM: 610 } },
    });
    const report = why(plan, "two");
    expect(report.state).toBe("conflict");
    expect(report.conflict?.causes.map((one) => one.kind)).toContain("separation");
    expect(report.guarded.some((one) => /610 m apart.*flight director/.test(one))).toBe(true);
    for (const { edit } of report.relaxations)
      expect(edit.patch.map(({ path }) => path[0])).not.toContain("rules");
  });

  it("says of one condition that no place was found with it, and that there is none is not proved", () => {
    // b is 600 m out and one crew member goes there; the other stays at the lander, at most 300 m apart.
    const plan = tinyPlan({
      tasks: [task("one", "b", { crew: { named: ["ev1"] } })],
      rules: { separation: { greatestM: 300 } },
    });
    const report = why(plan, "one");
    expect(report.conflict?.causes.map((one) => one.kind)).toEqual(["separation"]);
    expect(report.conflict?.sentence).toMatch(/^With 1 condition no place was found for \S+ /);
  });

  it("says that nothing has to be given up where moving others is enough", () => {
    // The placed task stands in the only window of the other, but has all day.
    const plan = lone(36_000, {
      tasks: [task("one", "a"), task("two", "a", { windows: [{ startS: 900, endS: 1500 }] })],
      placements: [at("one", 900)],
    });
    const report = why(plan, "two");
    expect(report.relaxations.map((each) => each.kind)).toEqual(["rearrange"]);
    expect(["fits", "rearranged"]).toContain(report.state);
  });

  it("offers a place where nothing else moves on the plan's grid of starts", () => {
    const plan = lone(36_000, {
      places: [place("lander", 0, 0), place("a", 300, 0), place("b", 610, 0)],
      tasks: [task("one", "b"), task("two", "a", { windows: [{ startS: 2000, endS: 4000 }] })],
      placements: [at("one", 1210)],
      rules: { startGridS: 60 },
    });
    const report = why(plan, "two");
    const [way] = report.relaxations;
    // One runs 1210 to 1810; the way from b to a takes 310 s: 2120 at the soonest, on the grid 2160.
    expect(way!.schedule.placements.find((one) => one.task === "two")?.startS).toBe(2160);
    expect(way!.moves).toEqual([]);
    expect(report.sentence).toBe("two fits as the day stands.");
  });

  it("has nothing to explain on a sound day or for a placed task", () => {
    const plan = lone(36_000, { tasks: [task("one", "a")], placements: [at("one", 900)] });
    expect(why(plan, "one").state).toBe("placed");
    expect(why(plan, null).state).toBe("sound");
  });
});

describe("what is wrong with a schedule", () => {
  it("is a cycle of times where the order cannot close, and what is missing is what opens it", () => {
    // The first is pinned to 900..1500, the second after it by link within 100 s of its end, but it stands at b: 300 s on.
    const plan = lone(36_000, {
      tasks: [task("one", "a", { worth: 5 }), task("two", "b", { worth: 7 })],
      placements: [at("one", 900), at("two", 1600)],
      more: {
        links: [
          {
            id: "soon",
            type: "lag",
            from: { task: "one", end: "end" },
            to: { task: "two", end: "start" },
            leastS: 0,
            greatestS: 100,
            needs: "none",
          },
        ],
      },
    });
    const report = why(plan, null);
    expect(report.conflict).toMatchObject({
      scope: "in this order",
      certainty: "proved",
      minimal: true,
    });
    expect(kinds(report)).toEqual(["link", "placement", "placement"]);
    // 200 s more: four whole minutes. Or the other way round: 600 + 300 + 600 s less, 25 min.
    expect(ofKind(report, "lag").map((each) => each.steps)).toEqual([4, 25]);
  });

  it("is told of the starts as they stand where sliding mends it", () => {
    const plan = lone(36_000, {
      tasks: [task("one", "a"), task("two", "a")],
      placements: [at("one", 900), at("two", 1200)],
    });
    const report = why(plan, null);
    expect(report.conflict).toMatchObject({ scope: "as it stands", certainty: "proved", minimal: true });
    expect(kinds(report)).toEqual(["placement", "placement"]);
    expect(report.relaxations.map((each) => each.kind)).toEqual(["rearrange"]);
  });
});
