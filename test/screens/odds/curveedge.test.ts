import { describe, expect, it } from "vitest";
import { edgeOf } from "../../../src/screens/odds/curveedge.ts";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";

const day = (name: string, done: number, meanWorth: number) => ({
  name,
  outcome: { home: chanceOf(1000, 1000), must: chanceOf(done, 1000), meanWorth },
});

describe("the line of the curve", () => {
  it("runs by the chance that was counted, whatever was searched for", () => {
    const searched = [
      day("50 %", 540, 9821),
      day("80 %", 880, 8467),
      day("90 %", 920, 8443),
      day("99 %", 490, 9901),
    ];
    expect(edgeOf(searched).map(({ name }) => name)).toEqual(["99 %", "50 %", "80 %", "90 %"]);
  });

  it("leaves out what another day beats in both, and keeps what is as good in both", () => {
    const days = [
      day("less of both", 800, 90),
      day("best", 900, 100),
      day("as good", 900, 100),
      day("surer", 950, 95),
    ];
    expect(edgeOf(days).map(({ name }) => name)).toEqual(["best", "as good", "surer"]);
    expect(
      edgeOf([day("as sure, worth less", 900, 99), day("best", 900, 100)]).map(({ name }) => name),
    ).toEqual(["best"]);
  });
});
