import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse, parseText, VERSION } from "../../src/plan/index.ts";
import { completePlan } from "./completePlan.ts";

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
    expect(read.value).toMatchObject({ ...JSON.parse(fixture(1)), version: VERSION });
    expect(read.value.variants).toHaveLength(1);
    expect(read.value.variants[0]).not.toHaveProperty("givesUp");
  });

  it("newer than the program is refused with a word on it, before its fields are looked at", () => {
    expect(parse({ ...completePlan, version: VERSION + 1, novelty: true })).toEqual({
      ok: false,
      error: [
        {
          path: "version",
          message: "the file is of version 3, from a newer program; versions up to 2 can be read",
        },
      ],
    });
  });

  it("that is none is refused as any wrong field is", () => {
    for (const version of [0, 1.5, "1", null]) expect(parse({ ...completePlan, version }).ok).toBe(false);
  });
});
