import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/kernel/index.ts";
import { fingerprint, parse, type Plan, shortFingerprint } from "../../src/plan/index.ts";
import { completePlan } from "./completePlan.ts";
import { readyPlan } from "../readyplan.ts";
import { smallAll } from "./witness.ts";

const small = readyPlan("small");

/** The same with every record's fields the other way round. */
function turned(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(turned);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .toReversed()
      .map(([key, item]) => [key, turned(item)]),
  );
}

describe("the fingerprint of a plan", () => {
  it("is the SHA-256 of its canonical JSON without its variants and what is said of it", () => {
    const read = parse(completePlan);
    if (!read.ok) throw new Error("faults");
    const { variants, comments, signoffs, hands, ...rest } = read.value;
    for (const apart of [variants, comments, signoffs, hands]) expect(apart).not.toEqual([]);
    const digest = createHash("sha256").update(canonicalJson(rest), "utf8").digest("hex");
    expect(fingerprint(read.value)).toBe(digest);
    expect(shortFingerprint(read.value)).toBe(`${digest.slice(0, 4)} ${digest.slice(4, 8)}`);
  });

  it("stays through a file and any order of fields, with defaults left out or written", () => {
    const again = parse(JSON.parse(JSON.stringify(turned(small))));
    if (!again.ok) throw new Error("faults");
    expect(fingerprint(again.value)).toBe(fingerprint(small));
    expect(fingerprint({ ...small, variants: [{ id: "v", name: "V", schedule: smallAll }] })).toBe(
      fingerprint(small),
    );
  });

  it("is another for another day, text, number or name of the revision, and the old one again when that is taken back", () => {
    const task = { ...small.tasks[0]!, worth: small.tasks[0]!.worth + 1 };
    const others: Plan[] = [
      { ...small, schedule: smallAll },
      { ...small, tasks: [task, ...small.tasks.slice(1)] },
      { ...small, revision: { ...small.revision, name: "Rev 2" } },
      { ...small, notes: "Other" },
    ];
    expect(new Set([small, ...others].map(fingerprint)).size).toBe(5);
    expect(fingerprint({ ...others[0]!, schedule: small.schedule })).toBe(fingerprint(small));
  });
});
