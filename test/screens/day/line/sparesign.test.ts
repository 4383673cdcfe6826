import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../../src/check/index.ts";
import { instant } from "../../../../src/kernel/index.ts";
import { awayPx, timeScale, valueNear } from "../../../../src/editor/index.ts";
import { layoutOf } from "../../../../src/screens/day/line/geometry.ts";
import { HALF_TEXT_PX } from "../../../../src/screens/day/line/names/place.ts";
import { skySigns } from "../../../../src/screens/day/line/names/signs.ts";
import { fixturePlan, fixtureSchedule } from "../../../editor/fixture.ts";

const plan = fixturePlan();
const schedule = fixtureSchedule();
const judged = judgeFor(plan)(schedule);
/** Out far until the last minutes, and by then little is left for the walk: the least spare is at the very end. */
const reach = judged.reach.map((track) => {
  const { startS, endS } = judged.outings.find(
    ({ eva, crew }) => eva === track.eva && crew === track.crew,
  )!.span;
  const at = (atS: number, value: number) => ({ atS: instant(atS), value });
  return {
    ...track,
    points: [at(startS, 0), at(startS + 600, 1200), at(endS - 900, 1200), at(endS - 600, 0), at(endS, 0)],
    allowed: [at(startS, 2400), at(endS - 900, 2400), at(endS, 720)],
  };
});
const verdict = { ...judged, reach };
const inS = Math.max(...judged.outings.map(({ span }): number => span.endS));
const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
const signPx = (text: string): number => text.length * 6.5;

/** The signs of the least spare at a lane's height and a zoom, with the ribbon's greatest reach under each. */
function signsAt(crewPx: number, window: { readonly startS: number; readonly endS: number }) {
  const layout = layoutOf(plan, schedule, verdict, tasks, crewPx);
  const scale = timeScale(window, 1000);
  return layout.lanes.flatMap((lane) => {
    const tracks = verdict.reach.filter(({ crew }) => crew === lane.crew);
    return skySigns(layout, lane, scale, new Map(), signPx, signPx)
      .filter(({ text }) => text.endsWith("to spare, the least"))
      .map((sign) => {
        let under = 0;
        for (let x = sign.x; x <= sign.x + sign.widthPx; x += 1)
          for (const { points } of tracks) {
            const atS = scale.at(x);
            if (atS < (points[0]?.atS ?? Infinity) || atS > (points.at(-1)?.atS ?? -Infinity)) continue;
            under = Math.max(
              under,
              awayPx(lane, layout.relief, valueNear({ points }, atS, 0)) + layout.relief.thickPx,
            );
          }
        return { ...sign, under };
      });
  });
}

describe("the least spare of the walk home", () => {
  it("is written where no ribbon is under it, at any height and zoom, or not at all", () => {
    let seen = 0;
    for (const crewPx of [90, 110, 140, 200, 280])
      for (const hours of [2, 4, 8, 16, 30])
        for (const beyondMin of [1, 5, 15, 60]) {
          const endS = inS + beyondMin * 60;
          const window = { startS: endS - hours * 3600, endS };
          for (const { out, under, x, widthPx } of signsAt(crewPx, window)) {
            seen += 1;
            // Between two columns that are looked at the ribbon may rise by a pixel.
            expect(out - HALF_TEXT_PX).toBeGreaterThanOrEqual(under - 1.5);
            expect(x).toBeGreaterThanOrEqual(4);
            expect(x + widthPx).toBeLessThanOrEqual(996);
          }
        }
    expect(seen).toBeGreaterThan(20);
  });
});
