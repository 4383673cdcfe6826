import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Explained } from "../../src/kernel/index.ts";
import type { Chance, FromAnswer } from "../../src/answers/index.ts";
import { parseText } from "../../src/plan/index.ts";
import { greedy } from "../../src/solver/index.ts";
import { oddsRun } from "../../src/solver/simulate/index.ts";
import { fromChance, fromMargin, fromTime } from "../../src/session/index.ts";
import { oddsReport } from "./answers.ts";

const read = parseText(readFileSync("public/plans/demo.json", "utf8"));
if (!read.ok) throw new Error(JSON.stringify(read.error));
const demo = read.value;

function simulated(days: number) {
  let now = 0;
  const run = oddsRun(demo, greedy(demo), {
    days,
    seed: 3,
    shape: "triangular",
    clock: () => (now += 0.001),
  });
  while (run.step(1));
  return run.report();
}
const report = simulated(400);

/** A figure's formula worked out from its inputs alone. */
function workedOut({ formula, inputs }: Explained): number {
  const names = inputs.map((one) => one.name);
  const work = new Function(...names, `"use strict"; return ${formula};`) as (...values: number[]) => number;
  return work(...inputs.map((one) => one.value));
}

function chances(): readonly Chance[] {
  return [
    report.home,
    report.must,
    report.whole,
    ...report.evas.flatMap((one) => [
      one.closes,
      one.asPlanned,
      one.duration,
      ...Object.values(one.reserves),
    ]),
    ...report.tasks.flatMap(({ done, window }) => (window ? [done, window] : [done])),
  ];
}

describe("from what a chance comes", () => {
  it("is the count of the days and the interval that the maker has, worked out again", () => {
    const all = chances();
    // Some happen always, some sometimes: both are looked at.
    expect(new Set(all.map(({ count, of }) => count === of))).toEqual(new Set([true, false]));
    for (const chance of all) {
      const { figures } = fromChance(report, "it", chance);
      const expected = [chance.share, chance.low, chance.high].map((share) => share * 100);
      expect(figures).toHaveLength(3);
      figures.forEach((figure, k) => {
        expect(figure.value).toBeCloseTo(expected[k]!, 12);
        expect(workedOut(figure)).toBeCloseTo(expected[k]!, 9);
      });
    }
  });

  it("holds the textbook interval of 8 in 10", () => {
    // Wilson at 95 %: (0.8 + 0.19207 -+ 1.95996 * sqrt(0.016 + 0.0096036)) / 1.38415 = 0.4902, 0.9433.
    const eight = { count: 8, of: 10, share: 0.8, low: 0.4902, high: 0.9433, words: "" };
    const [share, low, high] = fromChance(oddsReport(), "it", eight).figures.map(workedOut);
    expect(share).toBe(80);
    expect(low).toBeCloseTo(49.02, 2);
    expect(high).toBeCloseTo(94.33, 2);
  });

  it("says seed, spread, what is fixed and what is left out, and which end is meant at all or none", () => {
    const says = (chance: Chance): string => fromChance(report, "it", chance).says ?? "";
    expect(says(report.whole)).toContain("400 simulated days, durations drawn triangular");
    expect(says(report.whole)).toContain("seed 3");
    expect(says(report.whole)).toContain(report.leftOut);
    const fixed = oddsReport({ withoutSpread: ["one", "two"] });
    expect(fromChance(fixed, "it", fixed.whole).says).toContain("2 placed tasks have no low and high");
    expect(says({ ...report.whole, count: 400 })).toContain("on every day");
    expect(says({ ...report.whole, count: 0 })).toContain("on no day");
    expect(says({ ...report.whole, count: 200 })).not.toContain("end of the interval");
    expect(fromChance(report, "it", { ...report.whole, of: 0, count: 0 })).toMatchObject({ figures: [] });
  });
});

describe("from what a percentile comes", () => {
  it("is the report's amount over its stock, and the place of that day", () => {
    expect(report.margins.length).toBe(16);
    for (const margin of report.margins)
      for (const band of [0, 2] as const) {
        const { figures } = fromMargin(report, margin, band);
        for (const figure of figures) expect(workedOut(figure)).toBeCloseTo(figure.value, 9);
        const left = margin.points.at(-1)!.left[band];
        expect(figures[0]!.value).toBeCloseTo((100 * (left - margin.reserve)) / margin.stock, 9);
      }
  });

  it("takes the worse of two days in between: the one below for an amount, the one above for a time", () => {
    // 400 days: the middle lies between the 200th and the 201st, the 95 % mark at 1 + 399 * 0.95 = 380.05.
    const place = ({ figures }: FromAnswer): number => figures.at(-1)!.value;
    expect(place(fromMargin(report, report.margins[0]!, 2))).toBe(200);
    expect(place(fromTime(report, 2))).toBe(201);
    expect(place(fromTime(report, 4))).toBe(381);
    expect(workedOut(fromTime(report, 4).figures[0]!)).toBe(381);
  });

  it("is the place at which the maker reads times off", () => {
    // With two days the middle is the later one, so no earlier than the middle of the first day alone.
    const [one, two] = [simulated(1), simulated(2)];
    two.evas.forEach(({ ingressS }, e) => {
      expect(ingressS[2]).toBe(ingressS[4]);
      expect(ingressS[2]).toBeGreaterThanOrEqual(one.evas[e]!.ingressS[2]);
    });
    expect(fromTime(two, 2).figures[0]!.value).toBe(2);
  });
});
