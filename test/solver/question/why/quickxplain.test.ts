import { describe, expect, it } from "vitest";
import { random } from "../../../../src/kernel/index.ts";
import { quickXplain } from "../../../../src/solver/question/why/quickxplain.ts";

/** Runs a generator to its end. */
function ended<T>(going: Generator<void, T>): T {
  for (;;) {
    const step = going.next();
    if (step.done) return step.value;
  }
}

describe("QuickXplain", () => {
  it("finds a conflict of which every part with one member fewer is none, in few questions", () => {
    for (let seed = 1; seed <= 300; seed += 1) {
      const stream = random(seed);
      const size = 1 + stream.below(40);
      const all = Array.from({ length: size }, (_, k) => k);
      // One to three hidden conflicts: a part conflicts when it holds all of one.
      const hidden = Array.from({ length: 1 + stream.below(3) }, () =>
        all.filter(() => stream.next() < 0.12),
      );
      const holdsOne = (part: readonly number[]): boolean =>
        hidden.some((list) => list.every((one) => part.includes(one)));
      let asked = 0;
      const found = ended(
        quickXplain(all, function* (part) {
          asked += 1;
          yield;
          return holdsOne(part);
        }),
      );
      expect({ seed, conflicts: holdsOne(found) }).toEqual({ seed, conflicts: true });
      for (const one of found) expect(holdsOne(found.filter((other) => other !== one))).toBe(false);
      // Junker's bound, 2 k log2(n / k) + 2 k, and the question whether nothing at all conflicts.
      const k = found.length;
      if (k > 0) expect(asked).toBeLessThanOrEqual(2 * k * Math.log2(size / k) + 2 * k + 2);
    }
  });
});
