import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { parseText } from "../../../src/plan/index.ts";
import { leftAt, placesExtent, wholeExtent } from "../../../src/screens/site/shown.ts";
import { demoDay } from "../../solver/question/late/demoDay.ts";

const read = parseText(readFileSync("public/plans/demo.json", "utf8"));
if (!read.ok) throw new Error(JSON.stringify(read.error));
const plan = { ...read.value, schedule: demoDay };
const verdict = check(plan, plan.schedule);

describe("what is shown of the site", () => {
  it("has the stocks of those outside, full at egress and never more than later", () => {
    expect(leftAt(verdict, 0)).toEqual([]);
    const { span } = verdict.outings[0]!;
    const [ev1, ev2] = leftAt(verdict, span.startS);
    expect([ev1!.crew, ev2!.crew]).toEqual(["ev1", "ev2"]);
    const suit = plan.suits[0]!;
    expect(ev1!.amounts.water).toBeCloseTo(suit.waterKg, 6);
    let before = ev1!.amounts;
    for (let atS = span.startS + 600; atS < span.endS; atS += 600) {
      const { amounts } = leftAt(verdict, atS)[0]!;
      for (const one of ["oxygen", "co2", "water", "battery"] as const)
        expect(amounts[one]).toBeLessThan(before[one]);
      before = amounts;
    }
    expect(leftAt(verdict, span.endS + 1)).toEqual([]);
  });

  it("fits all places and keep-outs, with the ground all of it", () => {
    const box = placesExtent(plan);
    for (const { eastM, northM } of plan.site.places) {
      expect(eastM > box.westM && eastM < box.eastM).toBe(true);
      expect(northM > box.southM && northM < box.northM).toBe(true);
    }
    expect(wholeExtent(plan, null)).toEqual(box);
  });
});
