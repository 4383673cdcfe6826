import { describe, expect, it } from "vitest";
import { judgeFor } from "../../../../src/check/index.ts";
import { timeScale } from "../../../../src/editor/index.ts";
import { instant } from "../../../../src/kernel/index.ts";
import { layoutOf } from "../../../../src/screens/day/line/geometry.ts";
import { boxesMeet, labelBox, placeLabels } from "../../../../src/screens/day/line/labels/placelabels.ts";
import { windowBoxes, windowsShown } from "../../../../src/screens/day/line/windowwords.ts";
import { fixturePlan, fixtureSchedule } from "../../../editor/fixture.ts";

const plan = fixturePlan();
const schedule = fixtureSchedule();
const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
const layout = layoutOf(plan, schedule, judgeFor(plan)(schedule), tasks, 200);
const top = layout.lanes.find(({ topPx }) => topPx === 0)!;
const scale = timeScale({ startS: 0, endS: 36_000 }, 1200);
const textPx = (text: string): number => text.length * 6;

const task = {
  ...plan.tasks[0]!,
  relay: false,
  windows: [{ startS: instant(7200), endS: instant(18_000) }],
};
const windows = windowsShown(plan, task, scale, textPx);

describe("words at the head of a window", () => {
  it("are left out where the window is too narrow for them", () => {
    expect(windows.map(({ text, widePx }) => [text, widePx > 0])).toEqual([["window 2:00 to 5:00", true]]);
    const far = timeScale({ startS: 0, endS: 360_000 }, 1200);
    expect(windowsShown(plan, task, far, textPx).map(({ widePx }) => widePx)).toEqual([0]);
  });

  it("are never under words of the hand", () => {
    const ask = { text: "only start 2:14", widthPx: 90, side: "before", lanes: [top.key] } as const;
    const rows = [20, 60, 100, 140, top.heightPx - 8];
    const sky = { lane: top.key, rows, ribbon: new Float32Array(1201), inHand: [], names: [], widthPx: 1200 };
    const asks = [{ ...ask, key: "fixed only", x: scale.x(8040) }];
    const boxes = windowBoxes(windows, top);
    const meets = (taken: typeof boxes): boolean =>
      placeLabels(asks, () => ({ ...sky, taken })).some((one) =>
        boxes.some((box) => boxesMeet(labelBox(one), box)),
      );
    // Without being told of them it would lie on them.
    expect(meets([])).toBe(true);
    expect(meets(boxes)).toBe(false);
  });

  it("take room only on the lane at the top", () => {
    for (const lane of layout.lanes)
      expect(windowBoxes(windows, lane)).toHaveLength(lane.key === top.key ? 1 : 0);
  });
});
