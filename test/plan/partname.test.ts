import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { partNames, wholeName } from "../../src/plan/partname.ts";

describe("the names of parts", () => {
  it("count on where a part is split again", () => {
    expect(partNames("Rake")).toEqual(["Rake, part 1", "Rake, part 2"]);
    expect(partNames("Rake, part 2")).toEqual(["Rake, part 2.1", "Rake, part 2.2"]);
    expect(partNames("Rake, part 2.1")).toEqual(["Rake, part 2.1.1", "Rake, part 2.1.2"]);
  });

  it("go back to the name of the whole, however many parts are made one", () => {
    expect(wholeName("Rake, part 2.1", "Rake, part 2.2")).toBe("Rake, part 2");
    expect(wholeName("Rake, part 1", "Rake, part 2.1")).toBe("Rake");
    expect(wholeName("Rake", "Rake, part 2.2")).toBe("Rake");
    expect(wholeName("Rake", "Core")).toBe("Rake and Core");
    expect(wholeName("Rake, part 1", "Core, part 2")).toBe("Rake, part 1 and Core, part 2");
  });

  it("stay inside the longest name, and come back whole where there is room", () => {
    const names = fc.string({ minLength: 1, maxLength: 120 }).filter((name) => name.trim() === name);
    fc.assert(
      fc.property(names, (name) => {
        const [first, second] = partNames(name);
        expect(Math.max(first.length, second.length)).toBeLessThanOrEqual(120);
        expect(first).not.toBe(second);
        if (name.length <= 110) expect(wholeName(first, second)).toBe(name);
      }),
    );
  });
});
