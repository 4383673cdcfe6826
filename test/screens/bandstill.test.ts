import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { proposed } from "../../src/editor/propose.ts";
import type { Schedule } from "../../src/plan/index.ts";
import { bandAlone, bandChange } from "../../src/screens/day/line/bandstill.tsx";
import { bandsOf, layoutOf } from "../../src/screens/day/line/geometry.ts";
import { fixturePlan, fixtureSchedule } from "../editor/fixture.ts";

const plan = fixturePlan();
const judge = judgeFor(plan);
const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
const start = fixtureSchedule();

function lane(schedule: Schedule, key: string) {
  const layout = layoutOf(plan, schedule, judge(schedule), tasks, 100);
  return bandAlone(
    layout,
    layout.lanes.filter((one) => one.key === key),
  );
}

describe("a band's still layer", () => {
  it("holds the two lanes about one line home, and an odd one by itself", () => {
    const layout = layoutOf(plan, start, judge(start), tasks, 100);
    expect(bandsOf(layout.lanes).map((band) => band.map(({ name }) => name))).toEqual([
      ["EV1", "EV2"],
      ["EV3"],
      ["By command"],
    ]);
  });

  // Core is done by EV3 on the second EVA, on which EV2 goes out as well.
  const moved = proposed(plan, start, "core", "ev3", { at: "line", lane: "ev3", startS: 16 * 3600 });

  it("keeps its picture when a move elsewhere leaves the lane as it was", () => {
    expect(bandChange(lane(start, "ev1"), lane(moved, "ev1"))).toBeNull();
    expect(bandChange(lane(start, "ev1"), lane({ placements: [...start.placements] }, "ev1"))).toBeNull();
  });

  it("is drawn again where the task moved, and where only the outing around it did", () => {
    expect(bandChange(lane(start, "ev3"), lane(moved, "ev3"))).not.toBeNull();
    expect(bandChange(lane(start, "ev2"), lane(moved, "ev2"))).not.toBeNull();
  });

  it("is drawn again when a finding about it comes or goes", () => {
    // Sample moved onto the station's time: both overlap on EV1's lane.
    const broken = proposed(plan, start, "sample", "ev1", { at: "line", lane: "ev1", startS: 4 * 3600 });
    expect(bandChange(lane(start, "ev1"), lane(broken, "ev1"))).not.toBeNull();
    // The station's block stays where it is on EV2's lane; that it is broken now shows there too.
    const { blocks } = lane(start, "ev2");
    expect(lane(broken, "ev2").blocks.map((block) => block.startS)).toEqual(
      blocks.map((block) => block.startS),
    );
    expect(bandChange(lane(start, "ev2"), lane(broken, "ev2"))).not.toBeNull();
  });
});
