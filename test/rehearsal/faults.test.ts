import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import {
  type Call,
  debriefOf,
  played,
  readOuts,
  rehearsalFrom,
  standingOf,
  withReadings,
} from "../../src/rehearsal/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { mend } from "../solver/mended.ts";
import { at, eva as evaOf, task, tinyPlan } from "../check/tinyPlan.ts";
import { walksOf } from "../../src/terrain/index.ts";

// Egress work 600 s, a is 300 s out: with work on a from 3000 on, egress is at 2100. From a to b 300 s.
const plan = tinyPlan({
  tasks: [
    task("x", "a", { worth: 5 }),
    task("y", "b", { worth: 3, must: true, equipment: [{ equipment: "drill" }] }),
    task("z", "b", { worth: 2, relay: true }),
    task("w", "a", { worth: 1 }),
  ],
  placements: [at("x", 3000), at("y", 4200), at("z", 5400), at("w", 3000, ["ev2"])],
  stay: { relayPasses: [{ id: "p", name: "Pass", startS: 5000, endS: 9000 }] },
  more: {
    equipment: [{ id: "drill", name: "Drill", count: 1 }],
    links: [
      {
        id: "l",
        type: "lag",
        from: { task: "y", end: "end" },
        to: { task: "z", end: "start" },
        leastS: 120,
      },
    ],
  },
});
const walks = walksOf(plan);
const call = (atS: number, rest: object): Call => ({ ...rest, atS: instant(atS) }) as Call;
const standing = (nowS: number, ...calls: Call[]) =>
  standingOf(plan, { ...rehearsalFrom(0, 1), nowS: instant(nowS), calls }, walks);
const startsOf = ({ placements }: ReturnType<typeof standing>) =>
  Object.fromEntries(placements.map((placement) => [placement.task, placement.startS]));
const outAndX = [call(2100, { kind: "out", eva: "eva-1" }), call(3000, { kind: "begins", task: "x" })];

describe("what is called", () => {
  it("pushes what follows as far as it must and no farther", () => {
    // x is 400 s longer: it ends at 4000, b is 300 s on, so y begins at 4300 and ends at 4900; z has slack until 5400.
    const late = standing(3100, ...outAndX, call(3100, { kind: "longer", task: "x", byS: 400 }));
    expect(startsOf(late)).toEqual({ x: 3000, y: 4300, z: 5400, w: 3100 });
    // 1500 s longer: x ends 5100, y 5400 to 6000, z 120 s after that.
    const later = standing(3100, ...outAndX, call(3100, { kind: "longer", task: "x", byS: 1500 }));
    expect(startsOf(later)).toMatchObject({ y: 5400, z: 6120 });
  });

  it("keeps a later EVA waiting for the suit that it says, and not for one it does not need", () => {
    // x is 3000 s longer: done at 6600, home at 6900, in at 7500, the suit good again at 9300; then 600 s of egress and 300 of way.
    const day = (suits: Record<string, string>) =>
      tinyPlan({
        evas: [evaOf("eva-1", { crew: ["ev1"] }), evaOf("eva-2", { crew: ["ev2"], suits })],
        tasks: [task("x", "a"), task("y", "a")],
        placements: [at("x", 3000), at("y", 8000, ["ev2"], "eva-2")],
        rules: { recharge: { leastS: 1800 } },
      });
    const starts = (suits: Record<string, string>) => {
      const plan = day(suits);
      const calls = [...outAndX, call(3100, { kind: "longer", task: "x", byS: 3000 })];
      return startsOf(
        standingOf(plan, { ...rehearsalFrom(0, 1), nowS: instant(3100), calls }, walksOf(plan)),
      );
    };
    expect(starts({})).toEqual({ x: 3000, y: 8000 });
    expect(starts({ ev2: "suit" })).toEqual({ x: 3000, y: 10_200 });
  });

  it("holds everything until it is let go", () => {
    expect(startsOf(standing(3100, ...outAndX, call(3100, { kind: "hold", untilS: instant(4500) })))).toEqual(
      {
        x: 3000,
        y: 4500,
        z: 5400,
        w: 4500,
      },
    );
  });

  it("takes what is to come longer where a crew member is slower, and not what has begun", () => {
    const { placements } = standing(
      3100,
      ...outAndX,
      call(3100, { kind: "slower", crew: "ev1", percent: 150 }),
    );
    const lengths = Object.fromEntries(
      placements.map((placement) => [placement.task, placement.endS - placement.startS]),
    );
    expect(lengths).toEqual({ x: 600, y: 900, z: 900, w: 600 });
  });

  it("gives up what needs what was given up", () => {
    const { facts, ahead } = standing(3100, ...outAndX, call(3100, { kind: "left-out", task: "y" }));
    expect([...facts.leftOut]).toEqual([
      ["y", "given up"],
      ["z", "it needs y"],
    ]);
    expect(ahead.tasks.map((one) => one.id)).toEqual(["x", "w"]);
    expect(ahead.links).toEqual([]);
  });

  it("counts work that was given up halfway as work, and not as done", () => {
    const half = standing(3400, ...outAndX, call(3300, { kind: "left-out", task: "x" }));
    expect(half.facts.stopped.get("x")).toMatchObject({ startS: 3000, endS: 3300 });
    const worked = judgeFor(half.plan)(half.plan.schedule);
    const stretch = worked.outings[0]!.stretches.find((one) => one.task === "rehearsed:part-0");
    expect(stretch?.span).toEqual({ startS: 3000, endS: 3300 });
    expect(worked.score.worth).toBe(6);
  });

  it("counts work whose result is lost as work to its end, where it ends, and gives up what needs it", () => {
    const over = standing(
      4900,
      ...outAndX,
      ...[
        call(3600, { kind: "ends", task: "x" }),
        call(4200, { kind: "begins", task: "y" }),
        call(4700, { kind: "spoilt", task: "y" }),
      ],
    );
    expect([...over.facts.leftOut]).toEqual([
      ["y", "its result is lost"],
      ["z", "it needs y"],
    ]);
    const row = (id: string) => debriefOf(plan, over, []).rows.find((one) => one.task === id);
    // 500 s from 4200, 100 s less than planned.
    expect(row("y")).toMatchObject({ outcome: "spoilt", startS: 4200, lengthS: 500, longerS: -100 });
    expect(row("z")).toMatchObject({ outcome: "left out", startS: null, lengthS: null });
    expect(debriefOf(plan, over, []).done).toBe(1);
    const worked = judgeFor(over.plan)(over.plan.schedule);
    const stretch = worked.outings[0]!.stretches.find((one) => one.task?.startsWith("rehearsed:part"));
    expect(stretch?.span).toEqual({ startS: 4200, endS: 4700 });
  });

  it("tells work that was broken off from work that never began", () => {
    const half = standing(3400, ...outAndX, call(3300, { kind: "left-out", task: "x" }));
    const row = debriefOf(plan, half, []).rows.find((one) => one.task === "x");
    expect(row).toMatchObject({ outcome: "broken off", startS: 3000, lengthS: 300, longerS: null });
  });

  it("passes over a result lost before the work began", () => {
    const early = standing(3100, ...outAndX, call(3100, { kind: "spoilt", task: "y" }));
    expect([...early.facts.leftOut]).toEqual([]);
  });

  it("closes a place, takes equipment out of use and loses passes for what is to come", () => {
    const closed = standing(3100, ...outAndX, call(3100, { kind: "closed", place: "a" }));
    expect([...closed.facts.leftOut]).toEqual([["w", "a is closed"]]);
    const broken = standing(3100, ...outAndX, call(3100, { kind: "broken", equipment: "drill", count: 1 }));
    expect([...broken.facts.leftOut.keys()]).toEqual(["y", "z"]);
    // What was done with it before stays done: y from 4200 to 4800 had the drill that broke at 4900.
    const done = [call(4200, { kind: "begins", task: "y" }), call(4800, { kind: "ends", task: "y" })];
    const after = standing(
      4900,
      ...outAndX,
      call(3600, { kind: "ends", task: "x" }),
      ...done,
      call(4900, { kind: "broken", equipment: "drill", count: 1 }),
    );
    expect(after.facts.ended.has("y")).toBe(true);
    expect(judgeFor(after.plan)(after.plan.schedule).findings.map((one) => one.rule)).not.toContain(
      "equipment",
    );
    const lost = standing(3100, ...outAndX, call(5600, { kind: "no-relay", pass: "p" }));
    expect(lost.plan.stay.relayPasses).toMatchObject([{ startS: 5000, endS: 5600 }]);
    const rules = judgeFor(lost.plan)(lost.plan.schedule).findings.map((one) => one.rule);
    expect(rules).toContain("relay");
  });

  it("brings an EVA home sooner", () => {
    const { plan: gone } = standing(
      3100,
      ...outAndX,
      call(3100, { kind: "back-by", eva: "eva-1", byS: 6000 }),
    );
    expect(judgeFor(gone)(gone.schedule).findings.map((one) => one.rule)).toContain("eva-bounds");
  });

  it("passes over what cannot be", () => {
    const odd = standing(
      3100,
      call(3000, { kind: "ends", task: "x" }),
      call(3000, { kind: "begins", task: "nothing" }),
      call(3000, { kind: "in", eva: "eva-1" }),
    );
    expect(odd.facts.ended.size + odd.facts.began.size + odd.facts.inS.size).toBe(0);
  });
});

describe("a reading", () => {
  const { plan: gone } = standing(3100, ...outAndX);
  const verdict = judgeFor(gone)(gone.schedule);
  const oxygen = (of: typeof gone) =>
    judgeFor(of)(of.schedule).margins.find((one) => one.crew === "ev1" && one.consumable === "oxygen")!;
  const expected = readOuts(
    [{ kind: "reading", atS: instant(3100), crew: "ev1", consumable: "oxygen", left: 0 }],
    verdict.margins,
  )[0]!.expected!;
  const read = (left: number) =>
    withReadings(
      gone,
      readOuts(
        [{ kind: "reading", atS: instant(3100), crew: "ev1", consumable: "oxygen", left }],
        verdict.margins,
      ),
    );

  it("of less lowers what is left by as much, with the reserve as it was, for that crew member alone", () => {
    const less = oxygen(read(expected - 0.1));
    const { points, reserve } = oxygen(gone);
    expect(less.points.at(-1)!.value).toBeCloseTo(points.at(-1)!.value - 0.1, 6);
    expect(less.reserve).toBeCloseTo(reserve, 9);
    const other = judgeFor(read(expected - 0.1))(gone.schedule).margins.find((one) => one.crew === "ev2")!;
    expect(other.points).toEqual(verdict.margins.find((one) => one.crew === "ev2")!.points);
  });

  it("of less is of the suit, whoever wears it later", () => {
    const shared = { ...gone, crew: gone.crew.map((member) => ({ ...member, suit: gone.suits[0]!.id })) };
    const lower = withReadings(
      shared,
      readOuts(
        [{ kind: "reading", atS: instant(3100), crew: "ev1", consumable: "oxygen", left: expected - 0.1 }],
        verdict.margins,
      ),
    );
    expect(lower.crew).toEqual(shared.crew);
    expect(lower.suits[0]!.oxygenKg).toBeCloseTo(gone.suits[0]!.oxygenKg - 0.1, 9);
    expect(lower.suits.slice(1)).toEqual(gone.suits.slice(1));
  });

  it("of less is of the suit worn on that EVA, and stays so when another suit reads well later", () => {
    const spare = { ...gone.suits[0]!, id: "spare", name: "spare" };
    const dressed = {
      ...gone,
      suits: [...gone.suits, spare],
      evas: gone.evas.map((eva) => ({ ...eva, suits: { ev1: "spare" } })),
    };
    const [eva] = dressed.evas;
    const own = { ...dressed, evas: [...dressed.evas, { ...eva!, id: "later", suits: {} }] };
    const reading = { kind: "reading", atS: instant(3100), crew: "ev1", consumable: "oxygen" } as const;
    const lower = withReadings(own, [
      { reading: { ...reading, left: 1 }, eva: "eva-1", expected: 1.1, most: 1 },
      { reading: { ...reading, left: 2 }, eva: "later", expected: 2, most: 2 },
    ]);
    expect(lower.suits.map(({ id, oxygenKg }) => [id, oxygenKg - own.suits[0]!.oxygenKg])).toEqual([
      ["suit", 0],
      ["suit-2", 0],
      ["spare", expect.closeTo(-0.1, 9)],
    ]);
  });

  it("of more makes no margin better", () => {
    expect(read(expected + 0.1)).toBe(gone);
  });

  it("of nobody outside has nothing to be held against, but for what a suit goes out with", () => {
    const endS = Math.max(...verdict.margins.flatMap(({ points }) => points.map(({ atS }) => atS)));
    const [early, late] = readOuts(
      [10, endS + 1].map((atS) => ({
        ...{ kind: "reading", crew: "ev1", consumable: "oxygen", left: 1 },
        atS: instant(atS),
      })),
      verdict.margins,
    );
    expect(early).toMatchObject({ eva: "eva-1", most: 1 });
    expect(early!.expected).toBeGreaterThan(0);
    expect(late).toMatchObject({ eva: null, expected: null });
  });
});

describe("a new plan for what is to come", () => {
  it("leaves what is past as it was, begins nothing before now and breaks nothing", () => {
    // x takes an hour longer and the EVA is to be back by 9000: b is 600 s from home, ingress work 600 s.
    const calls = [
      ...outAndX,
      call(3100, { kind: "longer", task: "x", byS: 3600 }),
      call(3100, { kind: "back-by", eva: "eva-1", byS: 9000 }),
    ];
    const now = standing(3700, ...calls);
    expect(judgeFor(now.ahead)(now.ahead.schedule).score.breaches).toBeGreaterThan(0);
    const mended = mend(now.ahead, now.ahead.schedule, { seed: 1, iterations: 20, clock: () => 0 });
    expect(judgeFor(now.ahead)(mended.schedule).score.breaches).toBe(0);
    const byTask = new Map(mended.schedule.placements.map((spot) => [spot.task, spot]));
    expect(byTask.get("x")?.startS).toBe(3000);
    for (const spot of mended.schedule.placements)
      if (spot.task !== "x") expect(spot.startS).toBeGreaterThanOrEqual(3700);

    const anew = standing(3700, ...calls, call(3700, { kind: "replanned", schedule: mended.schedule }));
    expect(judgeFor(anew.plan)(anew.plan.schedule).score.breaches).toBe(0);
    expect(new Set(anew.placements.map((placement) => placement.task))).toEqual(new Set(byTask.keys()));
  });
});

describe("an EVA that is over", () => {
  const over = [
    ...outAndX,
    call(3600, { kind: "ends", task: "x" }),
    call(4500, { kind: "in", eva: "eva-1" }),
  ];

  it("leaves undone what was still to come on it, and takes nothing more", () => {
    const { placements, ahead, plan: gone } = standing(4600, ...over);
    expect(placements.map((placement) => placement.task)).toEqual(["x"]);
    expect(judgeFor(gone)(gone.schedule).outings[0]!.span).toEqual({ startS: 2100, endS: 4500 });
    expect(judgeFor(ahead)(ahead.schedule).score.breaches).toBe(0);
    const packed = packRun(ahead, { seed: 1, iterations: 300, clock: () => 0 });
    while (packed.step(Infinity)) continue;
    const again = packed.best();
    expect(again.placements.filter((spot) => spot.eva === "eva-1").map((spot) => spot.task)).toEqual(
      expect.arrayContaining(["x"]),
    );
    for (const spot of again.placements)
      expect(spot.eva !== "eva-1" || spot.startS <= 4500, spot.task).toBe(true);
  });

  it("says so in the debrief", () => {
    const debrief = debriefOf(plan, standing(4600, ...over), []);
    expect(debrief.rows.find((row) => row.task === "y")).toMatchObject({
      outcome: "left out",
      why: "eva-1 was over",
    });
  });
});

describe("the debrief", () => {
  it("holds what was planned against what came of it", () => {
    const { outings } = judgeFor(plan)(plan.schedule);
    const from = { ...rehearsalFrom(0, 1), nowS: instant(3100) };
    const calls = [
      ...outAndX,
      call(3100, { kind: "longer", task: "x", byS: 400 }),
      call(3100, { kind: "left-out", task: "z" }),
    ];
    const over = played(plan, { ...from, calls }, 20_000, walks);
    const debrief = debriefOf(plan, standingOf(plan, over, walks), outings);
    const row = (id: string) => debrief.rows.find((one) => one.task === id);
    expect(row("x")).toMatchObject({ lateS: 0, longerS: 400, outcome: "done" });
    expect(row("y")).toMatchObject({
      lateS: 100,
      longerS: 0,
      outcome: "done",
      plannedStartS: 4200,
      startS: 4300,
    });
    expect(row("z")).toMatchObject({ outcome: "left out", why: "given up", startS: null, lateS: null });
    expect(debrief).toMatchObject({
      done: 3,
      planned: 4,
      mustDone: 1,
      mustPlanned: 1,
      worthDone: 9,
      worthPlanned: 11,
    });
    // y ends at 4900 at b, 600 s from home; ingress work 600 s.
    expect(debrief.evas[0]).toMatchObject({ plannedOutS: 2100, outS: 2100, plannedInS: 7200, inS: 6100 });
  });
});
