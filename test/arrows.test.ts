import { resolve } from "node:path";
import { cruise } from "dependency-cruiser";
import extractConfig from "dependency-cruiser/config-utl/extract-depcruise-config";
import { describe, expect, it } from "vitest";

describe("import arrows", () => {
  it("every import of src obeys the table, types included, and there is no circle", async () => {
    const ruleSet = (await extractConfig(resolve(".config/dependency-cruiser.cjs"))) as {
      forbidden: never[];
      options: object;
    };
    const result = await cruise(["src"], {
      ...ruleSet.options,
      validate: true,
      ruleSet: { forbidden: ruleSet.forbidden },
    });
    const { output } = result;
    if (typeof output === "string") throw new Error(output);
    // A cruise that saw nothing proves nothing.
    expect(output.summary.totalCruised).toBeGreaterThan(20);
    const broken = output.summary.violations.map((one) => `${one.rule.name}: ${one.from} -> ${one.to}`);
    expect(broken).toEqual([]);
  });
});
