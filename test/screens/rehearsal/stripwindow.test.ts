import { describe, expect, it } from "vitest";
import { stripWindow } from "../../../src/screens/rehearsal/stripwindow.ts";
import type { Rehearsed } from "../../../src/session/index.ts";

/** A stay of 40 h with outings from and to these hours. */
function day(outings: Readonly<Record<string, readonly [number, number]>>, back: readonly string[] = []) {
  const evas = Object.keys(outings).map((id) => ({ id }));
  const list = Object.entries(outings).map(([eva, [from, to]]) => ({
    eva,
    span: { startS: from * 3600, endS: to * 3600 },
  }));
  return {
    plan: { evas, stay: { lengthS: 40 * 3600 } },
    planned: { outings: list },
    verdict: { outings: list },
    standing: { facts: { outS: new Map([["a", 0]]), inS: new Map(back.map((id) => [id, 0])) } },
  } as unknown as Rehearsed;
}

/** Whole hours that are shown, from and to. */
const hours = (of: Rehearsed): readonly number[] => {
  const { startS, endS } = stripWindow(of);
  return [Math.round(startS / 3600), Math.round(endS / 3600)];
};

describe("the strips of a rehearsal", () => {
  it("show the EVA under way, and those that are out at the same time to their ends", () => {
    expect(hours(day({ a: [3, 10], b: [20, 27] }))).toEqual([3, 10]);
    expect(hours(day({ a: [3, 10], b: [4, 12], c: [20, 27] }))).toEqual([3, 12]);
    // One that goes out when the other comes in is the next one.
    expect(hours(day({ a: [3, 10], b: [10, 17] }))).toEqual([3, 10]);
  });

  it("go on to the next one, and show all when none is left", () => {
    expect(hours(day({ a: [3, 10], b: [20, 27] }, ["a"]))).toEqual([20, 27]);
    expect(hours(day({ a: [3, 10], b: [20, 27] }, ["a", "b"]))).toEqual([2, 28]);
  });
});
