import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { laneAt, layLanes, REMOTE, remoteRowsOf } from "../../src/editor/index.ts";
import { crewLaneBeside } from "../../src/editor/lanes.ts";
import { instant } from "../../src/kernel/index.ts";
import { fixturePlan } from "./fixture.ts";

const sizes = { crewPx: 100, remoteRowPx: 20, remotePadPx: 5 };

describe("lanes", () => {
  it("are one a crew member, touching, with the remote lane last and only where it is needed", () => {
    const plan = fixturePlan();
    expect(layLanes(plan, 0, sizes).map((lane) => lane.key)).toEqual(["ev1", "ev2", "ev3"]);
    const lanes = layLanes(plan, 2, sizes);
    expect(lanes.map((lane) => [lane.key, lane.topPx, lane.heightPx])).toEqual([
      ["ev1", 0, 100],
      ["ev2", 100, 100],
      ["ev3", 200, 100],
      [REMOTE, 300, 50],
    ]);
  });

  it("every height belongs to exactly one lane, the outermost beyond the ends", () => {
    const lanes = layLanes(fixturePlan(), 1, sizes);
    expect(laneAt(lanes, -50)?.key).toBe("ev1");
    expect(laneAt(lanes, 99.9)?.key).toBe("ev1");
    expect(laneAt(lanes, 100)?.key).toBe("ev2");
    expect(laneAt(lanes, 5000)?.key).toBe(REMOTE);
    expect(laneAt([], 10)).toBeNull();
  });

  it("steps between crew lanes stop at the ends and never enter the remote lane", () => {
    const lanes = layLanes(fixturePlan(), 1, sizes);
    expect(crewLaneBeside(lanes, "ev1", -1)?.key).toBe("ev1");
    expect(crewLaneBeside(lanes, "ev2", 1)?.key).toBe("ev3");
    expect(crewLaneBeside(lanes, "ev3", 1)?.key).toBe("ev3");
  });

  it("remote tasks at the same time never share a row, and no row is wasted", () => {
    const starts = fc.array(fc.integer({ min: 0, max: 20_000 }), { maxLength: 20 });
    fc.assert(
      fc.property(starts, (list) => {
        const plan = fixturePlan({
          tasks: list.map((_, i) => ({
            id: `r-${i}`,
            name: `R ${i}`,
            kind: "upkeep" as const,
            duration: { likelyS: 600 + 300 * (i % 4) },
            crew: { count: 0 },
          })),
        });
        const placements = list.map((startS, i) => ({
          task: `r-${i}`,
          eva: null,
          crew: [],
          startS: instant(startS),
        }));
        const { row, rows } = remoteRowsOf(plan, { placements });
        const span = (i: number) => [list[i]!, list[i]! + 600 + 300 * (i % 4)] as const;
        for (let i = 0; i < list.length; i += 1) {
          for (let j = i + 1; j < list.length; j += 1) {
            const meet = span(i)[0] < span(j)[1] && span(j)[0] < span(i)[1];
            if (meet) expect(row.get(`r-${i}`)).not.toBe(row.get(`r-${j}`));
          }
        }
        const busiest = Math.max(
          0,
          ...list.map((at) => list.filter((_, i) => span(i)[0] <= at && at < span(i)[1]).length),
        );
        expect(rows).toBe(busiest);
      }),
    );
  });
});
