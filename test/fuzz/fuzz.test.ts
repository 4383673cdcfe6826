import { describe, expect, it } from "vitest";
import { random } from "../../src/kernel/index.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { tryEdits } from "./edits.ts";
import { fileKinds, tryFiles } from "./files.ts";

// A small share of `npm run fuzz`, without its clock: time decides nothing here.
const timeless = (): number => 0;

describe("spoilt files", () => {
  it.each(fileKinds())("of kind $name are taken or refused, never thrown at", async (kind) => {
    expect(await kind.open(kind.sound)).toBe(true);
    const { faults, taken, tried } = await tryFiles(kind, 60, random(7), timeless);
    expect(faults).toEqual([]);
    // Some are spoilt beyond reading: a door that takes everything looks at nothing.
    if (kind.name !== "CSV") expect(taken).toBeLessThan(tried);
  });
});

describe("random edits", () => {
  it("are saved as what they are, judged alike, and undone to the same bytes", () => {
    const { faults, edits } = tryEdits(samplePlan(), 8, 12, random(7), timeless);
    expect(edits).toBeGreaterThan(20);
    expect(faults).toEqual([]);
  });
});
