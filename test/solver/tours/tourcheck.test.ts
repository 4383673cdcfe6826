import { describe, expect, it } from "vitest";
import { checkTours } from "../../bench/tourcheck.ts";

/** Depot open to 30; vertex 1 three to the east, vertex 2 four to the north of the depot, vertex 3 one to the south-east of it. */
const INSTANCE = `2 9 3 1
0 200
 0 0.0 0.0 0 0 0 0 0 30
 1 3.0 0.0 2 10 0 0 5 9
 2 0.0 4.0 1 7 0 0 0 13
 3 1.0 -1.0 1 4 0 0 0 28
`;

describe("tours gone over an instance", () => {
  it("adds scores up where every visit begins in its window", () => {
    // Waits until 5, done at 7, 5 on to vertex 2 at 12, done at 13, home at 17.
    expect(checkTours(INSTANCE, 1, [[1, 2]])).toEqual({ score: 17, faults: [] });
    expect(checkTours(INSTANCE, 1, [[1], [2, 3], []])).toEqual({ score: 21, faults: [] });
  });

  it("tells of a visit that begins too late, twice, or nowhere, and of a late end", () => {
    // At 4, done at 5, 5 on to vertex 1 at 10, which closes at 9.
    expect(checkTours(INSTANCE, 1, [[2, 1]]).faults).toEqual(["tour 1: vertex 1 begins after it closes"]);
    expect(checkTours(INSTANCE, 1, [[1], [1]]).faults).toEqual(["tour 2: vertex 1 is visited twice"]);
    expect(checkTours(INSTANCE, 1, [[4, 0]]).faults).toEqual([
      "tour 1: there is no vertex 4 to visit",
      "tour 1: there is no vertex 0 to visit",
    ]);
    const short = INSTANCE.replace("0 0 0 0 0 30", "0 0 0 0 0 16.9");
    expect(checkTours(short, 1, [[1, 2]]).faults).toEqual(["tour 1: back after the depot closes"]);
  });

  it("cuts distances, not rounds them", () => {
    // The square root of 2 to vertex 3 and back: 1.4 each way, 1 there, 3.8; with two decimals 1.41, 3.82.
    const until = (closes: number): string => INSTANCE.replace("0 0 0 0 0 30", `0 0 0 0 0 ${closes}`);
    expect(checkTours(until(3.8), 1, [[3]]).faults).toEqual([]);
    expect(checkTours(until(3.81), 2, [[3]]).faults).toHaveLength(1);
    expect(checkTours(until(3.82), 2, [[3]]).faults).toEqual([]);
  });
});
