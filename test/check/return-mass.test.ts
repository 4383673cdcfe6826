import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import type { Container, Task } from "../../src/plan/index.ts";
import { plan } from "./cases/return-mass.ts";
import { only } from "./pair.ts";

describe("return mass", () => {
  test("return-mass is tight within 5 % and told in the verdict", () => {
    // 5 / 5.26 = 95.06 %; 5 / 5.27 = 94.9 %.
    expect(only(plan(5.26), "return-mass").level).toBe("tight");
    expect(check(plan(5.27)).findings).toEqual([]);
    expect(check(plan(5.27)).returnKg).toBe(5);
  });

  test("return-mass is at least so much where a sample has no mass, sampling tells nothing, or nobody has weighed the box", () => {
    const over = plan(4);
    const says = (more: Partial<typeof over>) => only({ ...over, ...more }, "return-mass").sentence;
    const [one, two] = over.tasks as [Task, Task];
    expect(says({})).toBe("Samples with box come to 5 kg; the ascent vehicle lifts 4 kg.");
    expect(
      says({
        tasks: [
          { ...one, sample: { ...one.sample!, massKg: 3 } },
          { ...two, sample: { ...two.sample!, massKg: 0 } },
        ],
      }),
    ).toBe("Samples with box come to at least 5 kg; the ascent vehicle lifts 4 kg.");
    const bare: Task = { ...two, kind: "sampling" };
    delete bare.sample;
    expect(says({ tasks: [{ ...one, sample: { ...one.sample!, massKg: 3 } }, bare] })).toContain(
      "at least 5 kg",
    );
    const [box, spare] = over.containers as [Container, Container];
    expect(says({ containers: [{ ...box, toGive: ["emptyMassKg"] }, spare] })).toContain("at least 5 kg");
    // Nothing comes back in the other.
    expect(says({ containers: [box, { ...spare, toGive: ["emptyMassKg"] }] })).toContain("come to 5 kg");
  });
});
