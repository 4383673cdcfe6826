import { expect, test } from "vitest";
import { keptWords } from "../../../src/screens/parts/keptwords.ts";

test("a kept plan is called by its title, and what has none by what it is", () => {
  expect(keptWords({ title: "Rim", fault: null })).toBe("Rim");
  expect(keptWords({ title: "Rim", fault: "it has faults" })).toBe("Rim");
  expect(keptWords({ title: " ", fault: null })).toBe("Plan without a title");
  expect(keptWords({ title: null, fault: "it has faults" })).toBe("Record without a title");
});
