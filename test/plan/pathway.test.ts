import { describe, expect, it } from "vitest";
import { at, withAt } from "../../src/plan/pathway.ts";

describe("parts of plain data by path", () => {
  const data = { a: { b: 1, c: [10, { d: 2 }] }, e: null };

  it("are read, and are not there below what is no object", () => {
    expect([at(data, "a.b"), at(data, "a.c.1.d"), at(data, "e")]).toEqual([1, 2, null]);
    expect([at(data, "a.x"), at(data, "e.x"), at(data, "a.b.x"), at(undefined, "a")]).toEqual(
      Array.from({ length: 4 }),
    );
  });

  it("are replaced, everything beside them the same objects, and made on the way", () => {
    const made = withAt(data, "a.c.1.d", 3) as typeof data;
    expect(made).toEqual({ a: { b: 1, c: [10, { d: 3 }] }, e: null });
    expect(withAt(data, "a.c.0", 11)).toEqual({ a: { b: 1, c: [11, { d: 2 }] }, e: null });
    expect((withAt(data, "e", 1) as typeof data).a).toBe(data.a);
    expect(withAt({}, "x.y", 1)).toEqual({ x: { y: 1 } });
    expect(withAt(data, "e.y", 1)).toEqual({ ...data, e: { y: 1 } });
  });

  it("are taken away by what is undefined, and with what it leaves empty only where that is asked for", () => {
    const pinned = { pin: { startS: 1 }, other: { startS: 1, eva: "e" } };
    expect(withAt(pinned, "pin", undefined)).toEqual({ other: pinned.other });
    expect(withAt(pinned, "pin.startS", undefined)).toEqual({ pin: {}, other: pinned.other });
    expect(withAt(pinned, "pin.startS", undefined, true)).toEqual({ other: pinned.other });
    expect(withAt(pinned, "other.startS", undefined, true)).toEqual({ pin: pinned.pin, other: { eva: "e" } });
    // Only what became empty below goes with it: an empty object that is put there stays.
    expect(withAt(pinned, "pin", {}, true)).toEqual({ ...pinned, pin: {} });
    expect(withAt({ list: [] }, "list", [], true)).toEqual({ list: [] });
  });
});
