import { describe, expect, it } from "vitest";
import { isEqual } from "../../src/kernel/index.ts";

describe("equality", () => {
  it("is by value, whatever the order of fields, and sees what is not there", () => {
    expect(isEqual({ a: [1, { b: null }], c: undefined }, { a: [1, { b: null }] })).toBe(true);
    expect(isEqual({ a: 1, b: 2 }, { b: 2, a: 1 })).toBe(true);
    for (const [a, b] of [
      [
        [1, 2],
        [2, 1],
      ],
      [[1], [1, 1]],
      [{ a: 1 }, { a: 1, b: 1 }],
      [{ a: 1, b: 1 }, { a: 1 }],
      [{}, []],
      [[], {}],
      [null, {}],
      [0, null],
      ["1", 1],
    ])
      expect(isEqual(a, b)).toBe(false);
  });
});
