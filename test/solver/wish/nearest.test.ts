import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";
import type { Choice } from "../../../src/solver/wish/choose.ts";
import { dayNearest } from "../../../src/solver/wish/nearest.ts";

/** A day chosen for `must` that came to `by` of 1500 days when it was chosen and to `shown` of 4000 others. */
function choice(must: number, by: number, shown: number, meanWorth: number): Choice {
  const home = 0.99;
  return {
    day: {
      schedule: { placements: [{ task: `for-${must}`, eva: "eva-1", crew: ["ev1"], startS: instant(0) }] },
      caution: 0.5,
      wish: { home, must },
      outcome: { home: chanceOf(4000, 4000), must: chanceOf(shown, 4000), meanWorth },
      days: 4000,
      meets: shown >= must * 4000,
    },
    chosenBy: { home: chanceOf(1500, 1500), must: chanceOf(by, 1500), meanWorth },
  };
}

const taskOf = (day: ReturnType<typeof dayNearest>): string | undefined => day?.schedule.placements[0]?.task;

describe("the day that stands for a wish", () => {
  // 92 % when chosen and 92 % shown; 49 % with much more done.
  const ninety = choice(0.9, 1380, 3680, 8443);
  const lavish = choice(0.95, 735, 1960, 9901);
  const wish = lavish.day.wish;

  it("is another wish's where its own is sure to fall short and the other comes nearer", () => {
    const day = dayNearest(wish, lavish, [ninety, lavish]);
    expect(taskOf(day)).toBe("for-0.9");
    // It is counted as before, and said to be for this wish, which it does not meet.
    expect(day).toEqual({ ...ninety.day, wish, meets: false });
  });

  it("stays its own where it may meet the wish, however near the other comes", () => {
    // 94.5 % of 1500 days may be 95 %: 1.96 standard errors are 1.2 points.
    const own = choice(0.95, 1418, 3790, 8000);
    const surer = choice(0.99, 1490, 3970, 7000);
    expect(dayNearest(wish, own, [own, surer])).toBe(own.day);
  });

  it("stays its own where nothing comes nearer, and does the most of two that come as near", () => {
    const best = choice(0.95, 1380, 3680, 8000);
    expect(taskOf(dayNearest(wish, best, [choice(0.9, 1300, 3470, 9000), best]))).toBe("for-0.95");
    expect(taskOf(dayNearest(wish, best, [ninety, best]))).toBe("for-0.9");
  });

  it("is one that was found for another wish where none was for its own, and none where none was", () => {
    expect(taskOf(dayNearest(wish, null, [null, ninety]))).toBe("for-0.9");
    expect(dayNearest(wish, null, [null, null])).toBeNull();
  });

  it("counts what is missing of everybody home as well", () => {
    const home = { ...lavish.chosenBy, home: chanceOf(900, 1500), must: chanceOf(1425, 1500) };
    expect(taskOf(dayNearest(wish, { ...lavish, chosenBy: home }, [ninety]))).toBe("for-0.9");
  });
});
