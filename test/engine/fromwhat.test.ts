import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { FromAnswer } from "../../src/answers/index.ts";
import { check } from "../../src/check/index.ts";
import { fromWhat } from "../../src/engine/fromwhat/index.ts";
import { CONSUMABLES } from "../../src/physics/index.ts";
import { parseText, type Plan } from "../../src/plan/index.ts";
import { RULE_IDS } from "../../src/rules/index.ts";
import { greedy } from "../../src/solver/index.ts";
import { workedOut } from "./behind.ts";

const demo = ready("demo");
const verdict = check(demo);

function ready(name: string): Plan {
  const read = parseText(readFileSync(`public/plans/${name}.json`, "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return { ...read.value, schedule: greedy(read.value) };
}

/** A column of a table added up; numbers there are rounded to six figures. */
function sum(answer: FromAnswer, column: number): number {
  return answer.sums!.rows.reduce((total, row) => total + Number(row[column]!.replace("−", "-")), 0);
}

describe("from what a margin comes", () => {
  it("is the judge's own figure at ingress, with a formula and lines that add up to it", () => {
    expect(verdict.margins.length).toBeGreaterThan(0);
    for (const { eva, crew, consumable, points, margin } of verdict.margins) {
      const answer = fromWhat(demo, demo.schedule, { what: "left", eva, crew, consumable, atS: null })!;
      const [left, above] = answer.figures;
      expect(left!.value).toBeCloseTo(points.at(-1)!.value, 9);
      expect(workedOut(left!)).toBeCloseTo(left!.value, 9);
      expect(above!.value).toBeCloseTo(margin * 100, 9);
      expect(workedOut(above!)).toBeCloseTo(above!.value, 9);
      const stock = left!.inputs.find((one) => one.name === "stock")!.value;
      const drawn = stock - left!.value;
      // Every line is rounded to six figures.
      expect(Math.abs(sum(answer, 5) - drawn)).toBeLessThan(1e-5 * drawn);
      for (const figure of answer.figures.slice(2)) {
        expect(Math.abs(workedOut(figure) - figure.value)).toBeLessThanOrEqual(1e-9 * Math.abs(figure.value));
      }
    }
  });

  it("is the judge's own figure at any moment in between", () => {
    for (const { eva, crew, consumable, points } of verdict.margins)
      points.slice(1).forEach((point, k) => {
        const before = points[k]!;
        if (point.atS === before.atS) return;
        const atS = Math.floor((before.atS + point.atS) / 2);
        const between =
          before.value + ((point.value - before.value) * (atS - before.atS)) / (point.atS - before.atS);
        const answer = fromWhat(demo, demo.schedule, { what: "left", eva, crew, consumable, atS })!;
        expect(answer.figures[0]!.value).toBeCloseTo(between, 7);
      });
    expect(CONSUMABLES.length).toBe(4);
  });
});

describe("from what the walk-back comes", () => {
  it("is the least to spare that the judge's tracks have, from limits that say their own formula", () => {
    for (const { eva, crew, points, allowed } of verdict.reach) {
      const answer = fromWhat(demo, demo.schedule, { what: "walkback", eva, crew, atS: null })!;
      const spare = answer.figures[0]!;
      expect(workedOut(spare)).toBe(spare.value);
      expect(spare.value).toBeGreaterThanOrEqual(0);
      // At every breakpoint of the course there is at least as much to spare, up to the second of rounding.
      for (const point of points) {
        const most = allowed.filter((one) => one.atS <= point.atS).at(-1)?.value ?? allowed[0]!.value;
        expect(spare.value).toBeLessThanOrEqual(most - point.value + 1);
      }
      expect(answer.figures.length).toBeGreaterThanOrEqual(3);
    }
  });
});

describe("from what the other figures come", () => {
  it("adds the worth of placed tasks up to the score, and what is walked", () => {
    const worth = fromWhat(demo, demo.schedule, { what: "worth" })!;
    expect(worth.figures[0]!.value).toBe(verdict.score.worth);
    expect(sum(worth, 1)).toBe(verdict.score.worth);
    const walked = fromWhat(demo, demo.schedule, { what: "walked" })!;
    expect(walked.figures[0]!.value).toBe(verdict.score.walkM);
    expect(sum(walked, 1) + sum(walked, 2)).toBe(verdict.score.walkM);
  });

  it("says what a task's crew draws, and nothing of one on the bench", () => {
    const placed = demo.schedule.placements.find((one) => one.crew.length === 2)!;
    const answer = fromWhat(demo, demo.schedule, { what: "task", task: placed.task })!;
    const stretch = (crew: string) =>
      verdict.outings
        .find((one) => one.crew === crew && one.eva === placed.eva)!
        .stretches.find((one) => one.task === placed.task)!;
    placed.crew.forEach((crew, k) => {
      expect(workedOut(answer.figures[k]!)).toBeCloseTo(stretch(crew).metabolicW, 9);
    });
    expect(answer.sums!.rows.length).toBe(2);
    expect(fromWhat(demo, { placements: [] }, { what: "task", task: placed.task })).toBeNull();
  });

  it("has the heat that the judge sees stored", () => {
    for (const { eva, crew, points, mostKj } of verdict.heat) {
      const answer = fromWhat(demo, demo.schedule, { what: "heat", eva, crew })!;
      expect(answer.figures[0]!.value).toBeCloseTo(mostKj, 6);
      const peak = Math.max(...answer.sums!.rows.map((row) => Number(row[5])));
      expect(Math.abs(peak - Math.max(...points.map((point) => point.value)))).toBeLessThanOrEqual(0.1);
    }
    expect(verdict.heat.length).toBe(4);
  });

  it("says every rule in a sentence, with the source of its numbers", () => {
    for (const rule of RULE_IDS) {
      const answer = fromWhat(demo, demo.schedule, { what: "rule", rule })!;
      expect(answer.says).toMatch(/\.$/);
      for (const figure of answer.figures) {
        expect(Number.isFinite(figure.value)).toBe(true);
        expect(figure.source).not.toBe("");
      }
    }
  });

  it("has no answer for somebody who is not out", () => {
    expect(
      fromWhat(demo, { placements: [] }, { what: "walkback", eva: "eva-1", crew: "ev1", atS: 0 }),
    ).toBeNull();
  });
});
