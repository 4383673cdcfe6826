import { describe, expect, it } from "vitest";
import { beyond } from "../../../src/solver/wish/beyond.ts";

/** The chance that of so many days, each good with chance `share`, at least `least` are: the binomial tail, summed. */
function tail(days: number, share: number, least: number): number {
  let logOfOne = days * Math.log(1 - share);
  let sum = 0;
  for (let k = 0; k <= days; k += 1) {
    if (k >= least) sum += Math.exp(logOfOne);
    logOfOne += Math.log((days - k) / (k + 1)) + Math.log(share / (1 - share));
  }
  return sum;
}

describe("a wish with what counting may err by on top", () => {
  it("is passed by one in twenty of the days at most that only just have the chance, and by nearly all that surely have it", () => {
    for (const days of [250, 1500, 4000])
      for (const share of [0.5, 0.8, 0.9, 0.95, 0.99]) {
        const { home, must } = beyond({ home: share, must: share, price: 1 }, days);
        for (const mark of [home, must]) {
          // No more than all of them can be asked for.
          const most = mark < 1 ? 1 / 20 : 1 / 10;
          expect(tail(days, share, Math.ceil(mark * days)), `${share} of ${days} days`).toBeLessThan(most);
          // What is surely more than wished is not turned away.
          const more = share + 5 * Math.sqrt((share * (1 - share)) / days);
          if (more < 1) expect(tail(days, more, Math.ceil(mark * days))).toBeGreaterThan(0.98);
        }
      }
  });

  it("asks for no more than every day, and keeps the price", () => {
    expect(beyond({ home: 1, must: 0.99999, price: 7 }, 100)).toEqual({ home: 1, must: 1, price: 7 });
    expect(beyond({ home: 0, must: 0, price: 7 }, 100)).toEqual({ home: 0, must: 0, price: 7 });
  });
});
