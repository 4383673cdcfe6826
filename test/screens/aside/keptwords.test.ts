import { expect, test } from "vitest";
import { keptWords, sizeWords } from "../../../src/screens/parts/keptwords.ts";

test("a kept plan is called by its title, and what has none by what it is", () => {
  expect(keptWords({ title: "Rim", fault: null })).toBe("Rim");
  expect(keptWords({ title: "Rim", fault: "it has faults" })).toBe("Rim");
  expect(keptWords({ title: " ", fault: null })).toBe("Plan without a title");
  expect(keptWords({ title: null, fault: "it has faults" })).toBe("Record without a title");
});

test("a size is never said to be less than it is", () => {
  expect([0, 999, 1000, 1001, 999_000, 999_001, 1_000_001, 12_340_000].map(sizeWords)).toEqual([
    "0 bytes",
    "999 bytes",
    "1 kB",
    "2 kB",
    "999 kB",
    "1.0 MB",
    "1.1 MB",
    "12.4 MB",
  ]);
});
