// @vitest-environment jsdom
import { describe, expect, it } from "vitest";
import { createStore } from "zustand/vanilla";
import { judgeFor } from "../../../src/check/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import { type Call, debriefOf, rehearsalFrom, standingOf } from "../../../src/rehearsal/index.ts";
import { RehearsalContext } from "../../../src/screens/rehearsal/context.ts";
import { DebriefPart } from "../../../src/screens/rehearsal/debriefpart.tsx";
import type { RehearsalState, RehearsalWork } from "../../../src/session/index.ts";
import { walksOf } from "../../../src/terrain/index.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";
import { setStage, show } from "../setup/stage.tsx";

setStage();

// 600 s of airlock work, 300 s to a, 600 s there, 300 s back, 600 s in: 2400 s of the 3000 that the EVA may take.
const plan = tinyPlan({
  tasks: [task("x", "a")],
  placements: [at("x", 3000)],
  evas: [eva("eva-1", { longestS: 3000 })],
});

/** The debrief of the day on which x is done `lateS` later than planned. */
function debriefed(lateS: number): string {
  const planned = judgeFor(plan)(plan.schedule);
  expect(planned.findings.filter(({ level }) => level === "breach")).toEqual([]);
  const calls = [
    { kind: "out", eva: "eva-1", atS: 2100 },
    { kind: "begins", task: "x", atS: 3000 },
    { kind: "ends", task: "x", atS: 3600 + lateS },
    { kind: "in", eva: "eva-1", atS: 4500 + lateS },
  ] as Call[];
  const rehearsal = { ...rehearsalFrom(0, 1), nowS: instant(9000), calls };
  const standing = standingOf(plan, rehearsal, walksOf(plan));
  const verdict = judgeFor(standing.plan)(standing.plan.schedule);
  const day = { plan, rehearsal, planned, standing, now: standing.plan, verdict, reads: [], recalls: [] };
  const state = createStore(() => ({ day }) as unknown as RehearsalState);
  const work = { state, debrief: () => debriefOf(plan, standing, planned.outings) };
  show(
    <RehearsalContext.Provider value={work as unknown as RehearsalWork}>
      <DebriefPart />
    </RehearsalContext.Provider>,
  );
  return document.body.textContent;
}

describe("a debrief", () => {
  it("tells of the rules that the day broke before it tells how much was done", () => {
    const text = debriefed(1200);
    // All was done, and nobody was in by the time that the plan allows.
    expect(text).toContain("1 of 1 tasks done");
    expect(text).toMatch(/^1 new breachBreach /);
    expect(text.indexOf("Breach")).toBeLessThan(text.indexOf("tasks done"));
    expect(text).toContain("Longest over their planned time: 1 x (20 min).");
  });

  it("says what took longest in the minutes of the table, a begun one counted", () => {
    const text = debriefed(21);
    expect(text).toContain("Longest over their planned time: 1 x (1 min).");
    expect(text).toContain("11 min+1 mindone");
  });

  it("says that it broke none where it did not", () => {
    expect(debriefed(0)).toMatch(/^It broke no rule that the plan had kept\./);
  });
});
