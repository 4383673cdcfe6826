import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const root = new URL("../", import.meta.url);
const rows = readFileSync(new URL("test/FAULTS.md", root), "utf8")
  .split("\n")
  .filter((line) => line.startsWith("| ") && !/^\| (fault|-+) /.test(line))
  .map((line) => {
    const [fault = "", , test = ""] = line.split("|").slice(1, -1);
    const [, file = "", title = ""] = /^ `([^`]+)`: (.+?) *$/.exec(test) ?? [];
    return { fault: fault.trim(), file, title };
  });

describe("the table of faults tried", () => {
  it("has rows of every kind: the store, workers, files, colleagues", () => {
    expect(rows.length).toBeGreaterThan(30);
  });

  it.each(rows)("is held by a test in each row: $fault", ({ file, title }) => {
    expect(file).not.toBe("");
    expect(existsSync(new URL(file, root))).toBe(true);
    expect(readFileSync(new URL(file, root), "utf8")).toContain(title);
  });
});
