import { briefly } from "../../src/words/index.ts";
import { describe, expect, it } from "vitest";
import type { Finding, MarginTrack } from "../../src/answers/index.ts";
import { judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { valueText } from "../../src/screens/margins/cursorvalues.tsx";
import { type MarginRow, marginRows } from "../../src/screens/margins/rows.ts";
import { evaSpan, limitsOf } from "../../src/screens/day/windowing.ts";
import { findingKey, marginCause, readFindings, worstMargin } from "../../src/screens/words.ts";
import { fixturePlan, fixtureSchedule } from "../editor/fixture.ts";

const plan = fixturePlan();
const schedule = fixtureSchedule();
const verdict = judgeFor(plan)(schedule);

describe("margin rows", () => {
  it("are four stocks, the walk-back and what is drunk for each suit, then separation and return mass", () => {
    const rows = marginRows(plan, schedule, verdict, "all");
    expect(rows).toHaveLength(3 * 6 + 2);
    expect(rows.slice(0, 5).map((row) => row.label)).toEqual([
      "Oxygen",
      "CO2 capacity",
      "Cooling water",
      "Battery",
      "Walk-back, to spare",
    ]);
  });

  it("show the least of a suit with its cause, and never more than there is", () => {
    const [least] = marginRows(plan, schedule, verdict, "least");
    const own = verdict.margins.filter((track) => track.crew === "ev1");
    const worst = own.reduce((a, b) => (b.margin < a.margin ? b : a));
    expect(least!.kind).toBe("least");
    const shown = Number(least!.figure.replace("−", "-").replace(" %", "")) / 100;
    expect(shown).toBeLessThanOrEqual(worst.margin);
    expect(worst.margin - shown).toBeLessThan(0.01);
    expect(least!.of).toContain("EVA-1");
  });

  it("tell the worst of a suit for each EVA with its cause, the worst EVA first", () => {
    const row = marginRows(plan, schedule, verdict, "least").find((one) => one.key === "ev3 least")!;
    expect(row.parts).toHaveLength(1);
    const own = verdict.margins.filter((track) => track.crew === "ev3" && track.eva === "eva-2");
    const worst = own.reduce((a, b) => (b.margin < a.margin ? b : a));
    expect(row.parts![0]).toMatchObject({ eva: "eva-2", figure: row.figure, status: row.status });
    expect(row.parts![0]!.cause.toLowerCase()).toContain(
      worst.consumable === "water" ? "water" : worst.consumable,
    );
    const both = marginRows(plan, schedule, verdict, "least").find((one) => one.key === "ev2 least")!;
    const figures = both.parts!.map((part) => Number.parseInt(part.figure, 10));
    expect(figures).toEqual(figures.toSorted((a, b) => a - b));
  });

  it("round the greatest separation and the return mass up", () => {
    const rows = marginRows(plan, schedule, verdict, "all");
    const apart = rows.find((row) => row.kind === "apart")!;
    const most = Math.max(...verdict.separation.flatMap((track) => track.points.map((point) => point.value)));
    expect(Number.parseInt(apart.figure, 10)).toBe(Math.ceil(most));
    // One box of 2 kg with 1.5 and 3 kg in it.
    const mass = (tasks: typeof plan.tasks) => {
      const one = { ...plan, tasks };
      return marginRows(one, schedule, judgeFor(one)(schedule), "all").find(({ key }) => key === "mass");
    };
    const told = plan.tasks.map((task) => (task.sample ? task : { ...task, kind: "survey" as const }));
    expect(mass(told)).toMatchObject({ figure: "6.5 kg", status: "fine" });
    // Sampling that does not tell what it brings back, or a sample without a mass, leaves unknown what may still be lifted.
    expect(mass(plan.tasks)).toMatchObject({
      figure: "at least 6.5 kg",
      of: expect.stringContaining(", left not known") as string,
      status: "none",
    });
    const unweighed = told.map((task) =>
      task.id === "core" && task.sample ? { ...task, sample: { ...task.sample, massKg: 0 } } : task,
    );
    expect(mass(unweighed)).toMatchObject({ figure: "at least 3.5 kg", status: "none" });
  });

  it("call a suit that stays in by that name", () => {
    const empty = judgeFor(plan)({ placements: [] });
    const rows = marginRows(plan, { placements: [] }, empty, "least");
    expect(rows[0]).toMatchObject({ figure: "not out", status: "none" });
  });

  it("under the cursor give the value at that time, and none where nobody is out", () => {
    const rows = marginRows(plan, schedule, verdict, "all");
    const oxygen = rows[0]!;
    const span = verdict.outings[0]!.span;
    // A full suit has its 0.9 kg less the purge of 0.035 and the reserve of 15 %: 0.73 / 0.9 = 81.1 %.
    expect(valueText(oxygen, span.startS)).toBe("81 %");
    expect(valueText(oxygen, span.startS - 1)).toBeNull();
  });

  it("under the cursor never read less than the strip calls its least, held against a day before the move too", () => {
    /** Water and battery of a stock of 100 each, left at moments an hour apart; the battery comes home with more. */
    const row = (water: readonly number[], battery: readonly number[]): MarginRow => {
      const track = (consumable: "water" | "battery", left: readonly number[]): MarginTrack => ({
        eva: "eva-1",
        crew: "ev1",
        consumable,
        stock: 100,
        reserve: 10,
        margin: (left.at(-1)! - 10) / 100,
        points: left.map((value, i) => ({ atS: instant(3600 * i), value })),
      });
      const outings = [[track("water", water), track("battery", battery)]];
      return { ...marginRows(plan, schedule, verdict, "least")[0]!, kind: "least", outings } as MarginRow;
    };
    const before = row([100, 80, 60, 40], [100, 50, 48, 46]);
    const after = row([100, 80, 50, 30], [100, 50, 48, 46]);
    // Water against its even use before, 20 an hour: 100 - 10 - 60, 80 - 10 - 40, 50 - 10 - 20, 30 - 10. By its own use it would read 16 % at 2 h.
    const read = [0, 1, 2, 3].map((h) => valueText(after, 3600 * h, before));
    expect(read).toEqual(["30 %", "30 %", "20 %", "20 %"]);
    // Nothing is held against: 70 in three hours are 23 and a third an hour, so 50 - 10 - 23.3 at 2 h; the battery dips lower, and is not this course.
    expect([0, 2].map((h) => valueText(after, 3600 * h))).toEqual(["20 %", "16 %"]);
  });
});

describe("words", () => {
  const finding = (level: Finding["level"], startS: number | null, sentence: string): Finding => ({
    rule: "relay",
    level,
    subjects: [{ kind: "task", id: "x" }],
    span: startS === null ? null : { startS: instant(startS), endS: instant(startS + 1) },
    need: null,
    have: null,
    unit: "none",
    sentence,
  });

  it("read breaches first, then must-do tasks left out, then tight ones, each in time", () => {
    const mixed = [
      finding("tight", 5, "d"),
      finding("open", null, "c"),
      finding("breach", 9, "b"),
      finding("breach", 1, "a"),
    ];
    expect(readFindings(mixed).map((one) => one.sentence)).toEqual(["a", "b", "c", "d"]);
  });

  it("know a finding by what is wrong and not by its numbers", () => {
    expect(findingKey(finding("breach", 1, "12 min"))).toBe(findingKey(finding("breach", 2, "13 min")));
    expect(findingKey(finding("breach", 1, "a"))).not.toBe(findingKey(finding("tight", 1, "a")));
  });

  it("name the worst margin by crew member, consumable and EVA", () => {
    const worst = worstMargin(verdict)!;
    expect(worst.margin).toBe(Math.min(...verdict.margins.map((track) => track.margin)));
    expect(marginCause(plan, worst)).toMatch(
      /^EV[123] (oxygen|CO2 capacity|cooling water|battery), EVA-[12]$/,
    );
    // Beside the figure the consumable stays in sight however long the names are.
    const long = {
      ...plan,
      crew: plan.crew.map((one) => ({ ...one, name: `${one.name} of a long name`.repeat(4) })),
    };
    expect(marginCause(long, worst, briefly)).toMatch(
      /^EV[123] of a long n… (oxygen|CO2 capacity|cooling water|battery), EVA-[12]$/,
    );
  });
});

describe("the window", () => {
  it("frames an EVA as it is, else as it may be, and stays near the stay", () => {
    expect(evaSpan(plan, verdict, 0)).toEqual(verdict.outings[0]!.span);
    const empty = judgeFor(plan)({ placements: [] });
    expect(evaSpan(plan, empty, 1)).toEqual({ startS: 14 * 3600, endS: 20 * 3600 });
    expect(evaSpan(plan, verdict, 7)).toBeNull();
    expect(limitsOf(plan)).toEqual({ startS: -1800, endS: 22 * 3600 + 1800, leastS: 480 });
  });
});
