import { describe, expect, it } from "vitest";
import type { Finding, FitBand } from "../../../src/answers/index.ts";
import type { Block } from "../../../src/editor/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import { nearestStarts, overlapsOf, pinsOf } from "../../../src/screens/day/breachmarks.ts";

const block = (task: string, startS: number, endS: number, lane = "ev1"): Block => ({
  task,
  lane,
  eva: "eva-1",
  startS,
  endS,
  homeStartS: 0,
  homeEndS: 0,
  crew: [lane],
  row: 0,
});

describe("where a held task breaks a rule", () => {
  it("is hatched where it lies over another one of its lane, and nowhere else", () => {
    const blocks = [
      block("held", 1000, 2000),
      block("before", 400, 1300),
      block("touching", 2000, 2500),
      block("other lane", 1000, 2000, "ev2"),
    ];
    expect(overlapsOf(blocks, ["held"]).map(({ startS, endS }) => [startS, endS])).toEqual([[1000, 1300]]);
    // What goes along in the same hand is not in its way.
    expect(overlapsOf(blocks, ["held", "before"])).toEqual([]);
  });

  it("is pinned at the first minutes at which a new or a worse breach begins", () => {
    const finding = (startS: number | null, level: Finding["level"] = "breach"): Finding => ({
      rule: "battery-reserve",
      level,
      subjects: [],
      span: startS === null ? null : { startS: instant(startS), endS: instant(startS + 60) },
      need: null,
      have: null,
      unit: "none",
      sentence: String(startS),
    });
    const pins = pinsOf({
      gained: [finding(900), finding(300, "tight"), finding(null), finding(900)],
      worse: [
        { finding: finding(600), by: 1, unit: "s" },
        { finding: finding(1200), by: 1, unit: "s" },
      ],
    });
    expect(pins.map(({ atS }) => atS)).toEqual([600, 900]);
  });
});

describe("first and last start", () => {
  const span = (startS: number, endS: number) => ({ startS: instant(startS), endS: instant(endS) });
  const band: FitBand = {
    eva: "eva-1",
    crew: ["ev1"],
    fixed: [span(601, 1201), span(3000, 3601)],
    sliding: [span(0, 1801)],
  };

  it("are those of the nearest stretch, on the grid, the end of it being no start", () => {
    // 601 to before 1201 on whole minutes: 660 to 1200.
    expect(nearestStarts([band], "ev1", 700, 60)).toEqual({
      fixed: { firstS: 660, lastS: 1200 },
      sliding: { firstS: 0, lastS: 1800 },
    });
    expect(nearestStarts([band], "ev1", 2900, 60).fixed).toEqual({ firstS: 3000, lastS: 3600 });
  });

  it("are none on a lane where it does not fit, or between two starts of the grid", () => {
    expect(nearestStarts([band], "ev2", 700, 60)).toEqual({ fixed: null, sliding: null });
    expect(nearestStarts([{ ...band, fixed: [span(601, 659)] }], "ev1", 620, 60).fixed).toBeNull();
  });
});
