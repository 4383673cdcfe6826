import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/must-do.ts";
import { at, task, tinyPlan } from "./tinyPlan.ts";

describe("must be done", () => {
  test("must-do left on the bench is open, not a breach", () => {
    const verdict = check(plan(false));
    expect(verdict.findings).toMatchObject([{ rule: "must-do", level: "open" }]);
    expect(verdict.score).toMatchObject({ breaches: 0, mustLeftOut: 1 });
    expect(verdict).toMatchObject({ mustPlaced: 0, mustTotal: 1 });
  });

  test("what is open is told after breaches and before what is tight, whatever its rule", () => {
    // 162 N at 1.62 m/s2 are 100 kg: 101 kg are a breach, 100 kg tight.
    const verdict = check(
      tinyPlan({
        tasks: [
          task("left", "a", { must: true }),
          task("near", "a", { massOutKg: 100 }),
          task("over", "a", { massOutKg: 101 }),
        ],
        placements: [at("near", 2000), at("over", 4000)],
        rules: { carry: { greatestN: 162 } },
      }),
    );
    expect(verdict.findings.map(({ rule, level }) => `${rule} ${level}`)).toEqual([
      "carry breach",
      "must-do open",
      "carry tight",
    ]);
  });

  test("must-do placed says nothing", () => {
    const verdict = check(plan(true));
    expect(verdict.findings).toEqual([]);
    expect(verdict).toMatchObject({ mustPlaced: 1, mustTotal: 1 });
  });
});
