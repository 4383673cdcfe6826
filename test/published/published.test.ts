import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { cases } from "./cases.ts";
import { headOf, validationPage } from "./page.ts";

/** The models in a folder. */
const modelsIn = (folder: string): string[] =>
  readdirSync(new URL(folder, import.meta.url))
    .filter((file) => file.endsWith(".ts") && file !== "index.ts")
    .map((file) => file.replace(/\.ts$/, ""))
    .sort();

/** Everything in physics, what it is held against, and what of terrain has a check. */
const models = [
  ...modelsIn("../../src/physics/"),
  ...modelsIn("models/").map((model) => `reference/${model}`),
  ...[...new Set(cases.map((one) => one.model).filter((model) => model.startsWith("terrain/")))].sort(),
];

describe("published values", () => {
  it.each(cases)("$model: $what [$source, $provenance]", ({ ours, value, within }) => {
    const have = ours();
    if (typeof value === "number") {
      expect(Math.abs(have - value)).toBeLessThanOrEqual(within);
    } else {
      expect(have).toBeGreaterThanOrEqual(value[0]);
      expect(have).toBeLessThanOrEqual(value[1]);
    }
  });

  it.each(models)("%s has a check, and says its range and what it does not cover", (model) => {
    expect(cases.filter((one) => one.model === model)).not.toHaveLength(0);
    expect(headOf(model)).toContain("Range: ");
    expect(headOf(model)).toContain("Not covered: ");
  });

  it("has no check of a model that is gone, and none twice", () => {
    for (const { model } of cases) expect(models).toContain(model);
    const names = cases.map((one) => `${one.model}: ${one.what} ${one.unit}`);
    expect(new Set(names).size).toBe(names.length);
  });

  it("stands on the validation page as computed today", async () => {
    await expect(await validationPage(models, cases)).toMatchFileSnapshot("../../src/physics/VALIDATION.md");
  });
});
