import { format } from "prettier";
import { describe, expect, it, test } from "vitest";
import { parse, USUAL, type Usual } from "../../src/plan/index.ts";
import { tinyInput } from "../check/tinyPlan.ts";

const rows = Object.entries(USUAL) as [string, Usual][];

/** A plan in which suits and rules say nothing that may be left out. */
function bare() {
  const { suits, ...input } = tinyInput();
  const read = parse({
    ...input,
    rules: {},
    suits: suits.map(({ id, name, massKg, oxygenKg, co2Kg, waterKg, batteryWh, emergencyOxygenS }) => ({
      id,
      name,
      massKg,
      oxygenKg,
      co2Kg,
      waterKg,
      batteryWh,
      emergencyOxygenS,
    })),
  });
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

/** What lies at `path`, the first entry of a list for `*`. */
function at(thing: unknown, path: string): unknown {
  return path
    .split(".")
    .reduce<unknown>((inner, name) => (inner as Record<string, unknown>)[name === "*" ? "0" : name], thing);
}

/** The table as a page. */
async function page(): Promise<string> {
  const cell = (words: string): string => words.replaceAll("|", "\\|");
  const lines = rows.map(([path, { low, nominal, high, starts, safe, unit, means, source }]) => {
    const says = (which: "low" | "nominal" | "high", value: number): string =>
      cell(means?.[which] === undefined ? String(value) : `${value} (${means[which]})`);
    return `| \`${path}\` | ${unit} | ${says("low", low)} | ${says("nominal", nominal)} | ${says("high", high)} | ${starts} | ${safe} | ${cell(source)} |`;
  });
  const text = [
    "# What a plan starts with",
    "",
    "Written from `defaults.ts` by its test; the schema takes its defaults from there, and setup offers the three. A plan starts at the nominal value or",
    "on the side of it that hurts less when it is not known. Heat from the surroundings is by default that of the sun (`heatFrom`).",
    "",
    "| field | unit | low | nominal | high | starts with | safe side | where they come from |",
    "| --- | --- | --- | --- | --- | --- | --- | --- |",
    ...lines,
    "",
  ].join("\n");
  return format(text, { parser: "markdown", printWidth: 110 });
}

describe("what a plan starts with", () => {
  test.each(rows)("%s: low, nominal, high in order, from a source, begun on the safe side", (path, usual) => {
    expect(usual.low).toBeLessThanOrEqual(usual.nominal);
    expect(usual.nominal).toBeLessThanOrEqual(usual.high);
    expect(usual.low).toBeLessThan(usual.high);
    expect(usual.source).toMatch(/^[A-Z].{20,}\.$/);
    if (usual.safe === "high") expect(usual.starts).toBeGreaterThanOrEqual(usual.nominal);
    if (usual.safe === "low") expect(usual.starts).toBeLessThanOrEqual(usual.nominal);
    if (usual.safe === "either") expect(usual.starts).toBe(usual.nominal);
    expect(at(bare(), path)).toBe(usual.starts);
  });

  it("stands on the page of defaults as it is", async () => {
    await expect(await page()).toMatchFileSnapshot("../../src/plan/DEFAULTS.md");
  });

  it("takes the heat of the surroundings from the sun", () => {
    expect(bare().suits[0]!.heatFrom).toBe("sun");
  });
});
