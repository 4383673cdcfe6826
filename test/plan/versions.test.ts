import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { applyPatch, parse, parseText, VERSION } from "../../src/plan/index.ts";
import { completePlan } from "./completePlan.ts";

interface OldTask {
  readonly id: string;
  readonly steps?: readonly string[];
}

const fixture = (version: number): string =>
  readFileSync(new URL(`fixtures/version-${version}.json`, import.meta.url), "utf8");

describe("a plan of an older version", () => {
  it.each(Array.from({ length: VERSION - 1 }, (_, i) => i + 1))(
    "%i opens as one of the newest",
    (version) => {
      const text = fixture(version);
      expect(JSON.parse(text)).toMatchObject({ format: "lopeline-plan", version });
      const read = parseText(text);
      if (!read.ok) throw new Error(JSON.stringify(read.error));
      expect(read.value.version).toBe(VERSION);
      // Written and read again it is the same plan.
      expect(parse(JSON.parse(JSON.stringify(read.value)))).toEqual(read);
    },
  );

  it("1 keeps all that it said, its variants too", () => {
    const read = parseText(fixture(1));
    if (!read.ok) throw new Error(JSON.stringify(read.error));
    const { tasks, ...rest } = JSON.parse(fixture(1)) as { readonly tasks: readonly OldTask[] };
    expect(read.value).toMatchObject({ ...rest, version: VERSION });
    expect(read.value.tasks.map(({ id, steps }) => [id, steps.map(({ text }) => text)])).toEqual(
      tasks.map(({ id, steps }) => [id, steps ?? []]),
    );
    expect(read.value.variants).toHaveLength(1);
    expect(read.value.variants[0]).not.toHaveProperty("givesUp");
  });

  it("2 keeps every step and caution as it stood, of no class and everybody's, also in what variants change", () => {
    const read = parseText(fixture(2));
    if (!read.ok) throw new Error(JSON.stringify(read.error));
    const { tasks, variants } = read.value;
    const bare = (text: string) => ({ text, cautions: [] });
    expect(tasks[0]!.steps).toEqual(["Level the base.", "Open the cover."].map(bare));
    // Nobody has said of what class it is: no migration may call it a WARNING, nor only a CAUTION.
    expect(tasks[0]!.cautions).toEqual([{ text: "Keep clear of the fins." }]);
    const patched = applyPatch(read.value, variants[1]!.givesUp!.patch.slice(0, 1));
    if (!patched.ok) throw new Error(patched.error.reason);
    expect(patched.value.tasks[0]!.steps).toEqual([bare("Open the cover.")]);
    expect(variants[1]!.givesUp!.patch[1]!.to).toMatchObject({
      steps: [bare("Rake 5 times.")],
      cautions: [{ text: "Short strokes." }],
    });
  });

  it("newer than the program is refused with a word on it, before its fields are looked at", () => {
    expect(parse({ ...completePlan, version: VERSION + 1, novelty: true })).toEqual({
      ok: false,
      error: [
        {
          path: "version",
          message: "the file is of version 4, from a newer program; versions up to 3 can be read",
        },
      ],
    });
  });

  it("that is none is refused as any wrong field is", () => {
    for (const version of [0, 1.5, "1", null]) expect(parse({ ...completePlan, version }).ok).toBe(false);
  });
});
