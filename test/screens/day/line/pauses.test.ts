import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../../src/check/index.ts";
import { timeScale } from "../../../../src/editor/index.ts";
import { layoutOf } from "../../../../src/screens/day/line/geometry.ts";
import { skySigns } from "../../../../src/screens/day/line/names/signs.ts";
import { pauseFits, waitParts, waitWords } from "../../../../src/screens/day/line/paintribbon.ts";
import { fixturePlan, fixtureSchedule } from "../../../editor/fixture.ts";

const plan = fixturePlan();
const schedule = fixtureSchedule();
const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
/** Without what is said of walks home, which stands where most pauses are. */
const layout = layoutOf(plan, schedule, { ...judgeFor(plan)(schedule), reach: [] }, tasks, 200);

/** Signs beyond the ribbon are written stronger, and so wider, than words on it. */
const signPx = (text: string): number => text.length * 8;
const pausePx = (text: string): number => text.length * 6;

/** Pauses of all lanes at a zoom: where each is and whether the ribbon says what it is. */
function pausesAt(lengthS: number) {
  const scale = timeScale({ startS: 0, endS: lengthS }, 1200);
  const pauses = layout.betweens
    .filter(({ kind }) => kind === "wait")
    .flatMap((between) =>
      waitParts(between, null).map((part) => {
        const [left, right] = [scale.x(part.startS), scale.x(part.endS)];
        const words = waitWords(part, null);
        return {
          lane: between.lane,
          text: words.join(" "),
          middle: (left + right) / 2,
          told: pauseFits(words, right - left, pausePx) !== null,
          wouldFit: pauseFits(words, right - left, signPx) !== null,
        };
      }),
    );
  const signs = layout.lanes.flatMap((lane) => skySigns(layout, lane, scale, new Map(), signPx, pausePx));
  return { pauses, signs };
}

describe("words of a pause", () => {
  it("stand on the ribbon or beyond it, never on both", () => {
    let close = 0;
    for (let hours = 4; hours <= 60; hours += 1) {
      const { pauses, signs } = pausesAt(hours * 3600);
      for (const pause of pauses.filter(({ told }) => told)) {
        if (!pause.wouldFit) close += 1;
        const twice = signs.filter(
          (sign) =>
            sign.lane === pause.lane &&
            sign.text === pause.text &&
            Math.abs(sign.x + sign.widthPx / 2 - pause.middle) < 1,
        );
        expect(twice).toEqual([]);
      }
    }
    // Else no pause came between the widths of the two faces, and nothing was tried.
    expect(close).toBeGreaterThan(0);
  });

  it("stand beyond the ribbon where it has no room for them", () => {
    const said = Array.from({ length: 100 }, (_, i) => pausesAt((4 + 4 * i) * 3600)).filter(
      ({ pauses, signs }) =>
        pauses.some(({ told, text }) => !told && signs.some((sign) => sign.text === text)),
    );
    expect(said.length).toBeGreaterThan(0);
  });

  it("keeps words in two lines farther off the ends of a rope than off those of a rest", () => {
    expect(pauseFits(["rest", "10"], 26, pausePx)).toEqual(["rest", "10"]);
    expect(pauseFits(["slack", "5"], 36, pausePx)).toBeNull();
    expect(pauseFits(["slack", "5"], 39, pausePx)).toEqual(["slack", "5"]);
  });
});
