import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import {
  type Call,
  callFault,
  callFaults,
  debriefOf,
  played,
  readOuts,
  readRehearsal,
  rehearsalFrom,
  rehearsalText,
  standingOf,
  withReadings,
} from "../../src/rehearsal/index.ts";
import { walksOf } from "../../src/terrain/index.ts";
import { at, eva, task, tinyPlan } from "../check/tinyPlan.ts";

/** What cannot have happened: refused where it is called, and never worked with. */

// Egress work 600 s, a is 300 s out.
const plan = tinyPlan({
  tasks: [task("x", "a"), task("y", "a"), task("late", "a")],
  placements: [
    at("x", 3000),
    at("y", 5400),
    { task: "late", eva: "eva-2", crew: ["ev1"], startS: instant(40_000) },
  ],
  evas: [eva("eva-1"), eva("eva-2", { name: "EVA 2" })],
});
const call = (atS: number, rest: object): Call => ({ ...rest, atS: instant(atS) }) as Call;
const out = call(2100, { kind: "out", eva: "eva-1" });
const begins = call(3000, { kind: "begins", task: "x" });
const ends = call(3600, { kind: "ends", task: "x" });
const home = call(6000, { kind: "in", eva: "eva-1" });
const left = call(2500, { kind: "left-out", task: "x" });

describe("a call that cannot be", () => {
  it.each<[string, readonly Call[], Call, RegExp]>([
    ["work before the egress", [], begins, /^begins x before the egress of /],
    [
      "work after the ingress",
      [out, home],
      call(6100, { kind: "begins", task: "x" }),
      /^begins x after the ingress of /,
    ],
    ["an ingress while somebody works", [out, begins], home, /^says ingress of .* while x is under way$/],
    [
      "an egress of who is out",
      [out],
      call(2200, { kind: "out", eva: "eva-2" }),
      /^says egress of EVA 2 while EV1 is out on /,
    ],
    ["work that was given up", [out, left], begins, /^is about x, which is left out: given up$/],
    [
      "the end of work that was given up",
      [out, begins, call(3100, { kind: "left-out", task: "x" })],
      ends,
      /left out/,
    ],
    [
      "giving up what is done",
      [out, begins, ends],
      call(3700, { kind: "left-out", task: "x" }),
      /^is about x, which is done$/,
    ],
    ["giving up twice", [out, left], call(2600, { kind: "left-out", task: "x" }), /left out/],
    [
      "a slip of what is done",
      [out, begins, ends],
      call(3700, { kind: "longer", task: "x", byS: 60 }),
      /done/,
    ],
    [
      "a gauge below nothing",
      [out],
      call(2200, { kind: "reading", crew: "ev1", consumable: "oxygen", left: -0.1 }),
      /cannot be written down: left must be at least 0/,
    ],
    [
      "a gauge that shows no number",
      [out],
      call(2200, { kind: "reading", crew: "ev1", consumable: "oxygen", left: NaN }),
      /cannot be written down/,
    ],
    [
      "a slip of more than ten hours",
      [out],
      call(2200, { kind: "longer", task: "x", byS: 36_001 }),
      /byS must be at most/,
    ],
    [
      "a note longer than a line",
      [],
      call(0, { kind: "note", words: "a".repeat(241) }),
      /words must be at most 240/,
    ],
    ["a note with a sign that is not seen", [], call(0, { kind: "note", words: "a\u202eb" }), /not seen/],
  ])("is refused when it is made: %s", (_, earlier, last, why) => {
    for (const [k, one] of earlier.entries()) expect(callFault(plan, earlier.slice(0, k), one)).toBeNull();
    expect(callFault(plan, earlier, last)).toMatch(why);
  });

  it("is told of a file once, without what follows from it", () => {
    const rehearsal = { ...rehearsalFrom(0, 1), nowS: instant(9000), calls: [begins, ends] };
    expect(callFaults(plan, rehearsal)).toEqual([
      expect.stringMatching(/^Call 1, .* begins x before the egress of /),
    ]);
    const calls = [out, begins, ends, home];
    expect(callFaults(plan, { ...rehearsal, calls })).toEqual([]);
  });
});

describe("a file of a newer program", () => {
  it("is refused with a word on it", () => {
    const text = rehearsalText({ ...rehearsalFrom(0, 1), version: 2 as 1 }, JSON.stringify(plan));
    expect(readRehearsal(text)).toEqual({
      ok: false,
      error: "it is of version 2, from a newer program; version 1 can be read",
    });
  });
});

describe("a gauge that shows more than it did before", () => {
  const walks = walksOf(plan);
  const { plan: gone } = standingOf(
    plan,
    { ...rehearsalFrom(0, 1), nowS: instant(4000), calls: [out, begins] },
    walks,
  );
  const { margins } = judgeFor(gone)(gone.schedule);
  const read = (atS: number, leftKg: number) =>
    ({ kind: "reading", atS: instant(atS), crew: "ev1", consumable: "oxygen", left: leftKg }) as const;
  const expectedAt = (atS: number): number => readOuts([read(atS, 0)], margins)[0]!.expected!;
  const stockOf = (of: Plan): number => of.suits[0]!.oxygenKg;

  it("counts as it did before: nothing outside fills a suit", () => {
    const low = expectedAt(3100) - 0.2;
    const reads = readOuts([read(3100, low), read(3900, low + 0.15)], margins);
    expect(reads.map(({ most }) => most)).toEqual([low, low]);
    // At 3900 there is at most what there was at 3100.
    expect(stockOf(withReadings(gone, reads))).toBeCloseTo(stockOf(gone) - (expectedAt(3900) - low), 9);
  });

  it("is none where it shows less than before: less was used than was worked out", () => {
    const first = expectedAt(3100) - 0.2;
    const reads = readOuts([read(3100, first), read(3900, first - 0.001)], margins);
    expect(stockOf(withReadings(gone, reads))).toBeCloseTo(
      stockOf(gone) - (expectedAt(3900) - first + 0.001),
      9,
    );
  });
});

describe("a gauge that is read before the first egress", () => {
  const { margins } = judgeFor(plan)(plan.schedule);
  const read = (atS: number, leftKg: number) =>
    ({ kind: "reading", atS: instant(atS), crew: "ev1", consumable: "oxygen", left: leftKg }) as const;
  const suit = plan.suits[0]!;
  const stockOf = (of: Plan): number => of.suits[0]!.oxygenKg;
  const least = (of: Plan): number =>
    Math.min(
      ...judgeFor(of)(of.schedule)
        .margins.filter(({ crew, consumable }) => crew === "ev1" && consumable === "oxygen")
        .map(({ margin }) => margin),
    );

  it("is what the suit goes out with: the margins are less by it", () => {
    const reads = readOuts([read(900, suit.oxygenKg - 0.2)], margins);
    expect(reads).toMatchObject([{ eva: "eva-1", expected: suit.oxygenKg }]);
    const now = withReadings(plan, reads);
    expect(stockOf(now)).toBeCloseTo(suit.oxygenKg - 0.2, 9);
    expect(least(now)).toBeLessThan(least(plan));
    // What was filled up inside and read again is what there is; outside nothing is filled.
    const filled = [read(900, suit.oxygenKg - 0.2), read(1000, suit.oxygenKg)];
    expect(withReadings(plan, readOuts(filled, margins))).toBe(plan);
    const [, , outside] = readOuts(
      [...filled.slice(0, 1), read(1000, suit.oxygenKg - 0.1), read(3000, suit.oxygenKg)],
      margins,
    );
    expect(outside).toMatchObject({ most: suit.oxygenKg - 0.1 });
  });

  it("says nothing of the next EVA once it was out: suits are recharged in between", () => {
    const between = readOuts([read(30_000, 0.1)], margins);
    expect(between).toMatchObject([{ eva: null, expected: null }]);
    expect(withReadings(plan, between)).toBe(plan);
  });
});

describe("a gauge that was misread", () => {
  const { margins } = judgeFor(plan)(plan.schedule);
  const read = (atS: number, leftKg: number, crew = "ev1") =>
    ({ kind: "reading", atS: instant(atS), crew, consumable: "oxygen", left: leftKg }) as const;

  it("is corrected by the next call at the same moment, and by none later or of another gauge", () => {
    const full = plan.suits[0]!.oxygenKg;
    const most = (...readings: Parameters<typeof readOuts>[0]) =>
      readOuts(readings, margins).map((one) => one.most);
    expect(most(read(3000, 0.3), read(3000, full))).toEqual([full]);
    expect(withReadings(plan, readOuts([read(3000, 0.3), read(3000, full)], margins))).toBe(plan);
    expect(most(read(3000, 0.3), read(3001, full))).toEqual([0.3, 0.3]);
    expect(most(read(3000, 0.3), read(3000, full, "ev2"))).toEqual([0.3, full]);
    expect(most(read(3000, full), read(3000, 0.3))).toEqual([0.3]);
  });
});

describe("lengths beyond all days", () => {
  it("end at what a plan can say, however often somebody is called slower", () => {
    const slow = Array.from({ length: 40 }, () => call(2200, { kind: "slower", crew: "ev1", percent: 500 }));
    const now = { ...rehearsalFrom(0, 1), nowS: instant(2300), calls: [out, ...slow] };
    const { facts } = standingOf(plan, now, walksOf(plan));
    expect(facts.lengthS.get("x")).toBe(315_360_000);
  });
});

describe("a task of the plan that is called like what marks time outside", () => {
  it("is rehearsed like any other", () => {
    const own = tinyPlan({
      tasks: [task("rehearsed-part-0", "a"), task("y", "a")],
      placements: [at("rehearsed-part-0", 3000), at("y", 5400)],
    });
    const walks = walksOf(own);
    const calls = [
      out,
      call(3000, { kind: "begins", task: "rehearsed-part-0" }),
      call(3100, { kind: "left-out", task: "rehearsed-part-0" }),
    ];
    const broken = standingOf(own, { ...rehearsalFrom(0, 1), nowS: instant(3200), calls }, walks);
    expect(new Set(broken.plan.tasks.map(({ id }) => id)).size).toBe(broken.plan.tasks.length);
    const over = standingOf(own, played(own, rehearsalFrom(0, 1), own.stay.lengthS, walks), walks);
    const debrief = debriefOf(own, over, []);
    expect(debrief.rows.map(({ task: id, outcome }) => `${id} ${outcome}`)).toEqual([
      "rehearsed-part-0 done",
      "y done",
    ]);
  });
});
