import { describe, expect, it } from "vitest";
import { judgeFor, subtract } from "../../../src/check/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import type { Preview } from "../../../src/session/index.ts";
import { spokenCost } from "../../../src/screens/day/speech.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";

// In 1500 s after the start, no later than 10,000: over from 8501 on.
const plan = tinyPlan({
  tasks: [task("one", "a", { name: "One" })],
  placements: [at("one", 8800)],
  evas: [eva("eva-1", { name: "EVA 1", latestIngressS: 10_000 })],
});

/** What is said of a move of the task from one start to another. */
function said(fromS: number, toS: number): string {
  const judge = judgeFor(plan);
  const day = (startS: number) => ({
    placements: [{ task: "one", eva: "eva-1", crew: ["ev1"], startS: instant(startS) }],
  });
  const verdict = judge(day(toS));
  const preview: Preview = {
    name: "Move One",
    tasks: ["one"],
    start: day(fromS),
    schedule: day(toS),
    plan,
    verdict,
    difference: subtract(judge(day(fromS)), verdict),
  };
  return spokenCost(plan, preview, { at: "lane", startS: toS, lane: "ev1" } as never);
}

describe("what a move costs, spoken", () => {
  it("says by how much a breach gets worse, and does not say that nothing new is broken", () => {
    // 5 min over, then 9.
    const words = said(8800, 9040);
    expect(words).toContain(
      "A breach is worse by 4 min: EVA 1 is in at 2:55:40 MET, the latest is 2:46:40 MET.",
    );
    expect(words).not.toContain("Breaks nothing new");
  });

  it("says what eases, and that nothing new is broken only where nothing is", () => {
    expect(said(9040, 8800)).toContain("Breaks nothing new. 1 finding better.");
    expect(said(8000, 7000)).toContain("Breaks nothing new.");
    expect(said(8000, 9040)).toContain("EVA 1 is in at");
    expect(said(8000, 9040)).not.toContain("Breaks nothing new");
  });
});
