import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Explained } from "../../src/kernel/index.ts";
import {
  drawPerSecond,
  explainDraw,
  explainEmergency,
  explainRate,
  explainSurroundings,
  explainWalk,
  explainWalkbackRate,
} from "../../src/physics/index.ts";
import { defaultSuit } from "../published/gas.cases.ts";
import { evenly } from "./evenly.ts";

/** The formula worked out from the inputs alone, by the names it uses. */
function workedOut({ formula, inputs }: Explained): number {
  const names = inputs.map((one) => one.name);
  const work = new Function(...names, `"use strict"; return ${formula};`) as (...values: number[]) => number;
  return work(...inputs.map((one) => one.value));
}

const suits = fc
  .record({ leakKgH: evenly(0, 0.1), electricalW: evenly(0, 200), environmentW: evenly(-150, 150) })
  .map((more) => ({ ...defaultSuit, ...more }));

describe("where a figure comes from", () => {
  it("gives its own value when the formula is worked out from the inputs", () => {
    fc.assert(
      fc.property(suits, evenly(60, 700), evenly(0, 9000), (suit, watts, seconds) => {
        const all = [
          ...explainDraw(suit, watts),
          ...explainEmergency(Math.round(seconds), 180, 1.1),
          explainRate("deployment", watts / 300),
          explainRate({ watts }, 1.1),
          explainWalk(
            { metabolicW: watts, rateAtMs: 0.9 },
            { factor: watts / 300, massKg: 157 },
            1.62,
            seconds / 4500,
            12,
          ),
          explainWalkbackRate(
            watts,
            { metabolicW: 300, rateAtMs: 0.9 },
            { factor: 1.1, massKg: 157 },
            1.62,
            seconds / 4500,
            12,
          ),
          explainSurroundings(watts / 1000, {
            leastDeg: seconds / 100 - 45,
            greatestDeg: seconds / 100 - 40,
          }),
          explainSurroundings(0.2, null),
        ];
        for (const one of all) {
          expect(Math.abs(workedOut(one) - one.value)).toBeLessThanOrEqual(
            1e-9 * Math.abs(one.value) + 1e-12,
          );
          expect(one.source).toMatch(/^[a-z]+: \S/);
          expect(one.inputs.every((input) => input.unit !== "")).toBe(true);
        }
      }),
    );
  });

  it("is what the schedule draws, but for rounding up to whole units each second", () => {
    fc.assert(
      fc.property(suits, evenly(60, 700), (suit, watts) => {
        const drawn = drawPerSecond(suit, watts);
        const [oxygen, co2, , water, battery] = explainDraw(suit, watts).map((one) => one.value);
        const near = (whole: number, perHour: number, unit: number): void => {
          expect((whole * 3600) / unit).toBeGreaterThanOrEqual(perHour * (1 - 1e-12));
          expect((whole * 3600) / unit).toBeLessThanOrEqual(perHour + 3600 / unit + 1e-9);
        };
        near(drawn.oxygen, oxygen!, 1e9);
        near(drawn.co2, co2!, 1e9);
        near(drawn.water, water!, 1e9);
        near(drawn.battery, battery!, 3_600_000);
      }),
    );
  });
});
