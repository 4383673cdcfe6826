// @vitest-environment jsdom
import { describe, expect, it } from "vitest";
import { createStore } from "zustand/vanilla";
import { judgeFor } from "../../../src/check/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import { type Call, rehearsalFrom, standingOf } from "../../../src/rehearsal/index.ts";
import { RehearsalContext } from "../../../src/screens/rehearsal/context.ts";
import { Levels } from "../../../src/screens/rehearsal/crewcard.tsx";
import { crewNow } from "../../../src/screens/rehearsal/crewnow.ts";
import type { RehearsalState, RehearsalWork } from "../../../src/session/index.ts";
import { walksOf } from "../../../src/terrain/index.ts";
import { percent } from "../../../src/words/index.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";
import { setStage, show } from "../setup/stage.tsx";

setStage();

const plan = tinyPlan({ tasks: [task("x", "a")], placements: [at("x", 3000)], evas: [eva("eva-1")] });

/** What stands of the suit of EV1, and the verdict that it is of. */
function levelsAt(nowS: number, of = plan) {
  const planned = judgeFor(of)(of.schedule);
  const calls = [{ kind: "out", eva: "eva-1", atS: 2100 }].filter(({ atS }) => atS <= nowS) as Call[];
  const rehearsal = { ...rehearsalFrom(0, 1), nowS: instant(nowS), calls };
  const standing = standingOf(of, rehearsal, walksOf(of));
  const verdict = judgeFor(standing.plan)(standing.plan.schedule);
  const day = { plan: of, rehearsal, planned, standing, now: standing.plan, verdict, reads: [], recalls: [] };
  const work = { state: createStore(() => ({ day }) as unknown as RehearsalState) };
  show(
    <RehearsalContext.Provider value={work as unknown as RehearsalWork}>
      <Levels now={crewNow(day, "ev1", null)} member={of.crew[0]!} />
    </RehearsalContext.Provider>,
  );
  return { text: document.body.textContent, verdict };
}

describe("what a suit has left in a rehearsal", () => {
  it("is said against the reserve, as on every other screen", () => {
    const { text, verdict } = levelsAt(3100);
    const oxygen = verdict.margins.find((one) => one.crew === "ev1" && one.consumable === "oxygen")!;
    expect(text).toContain(`${percent(oxygen.margin, "down")} above reserve`);
    expect(text).toContain("above the reserve when back");
    expect(text).not.toContain("assumed");
  });

  it("stands there before the first egress, where a gauge can be read, and says what is assumed", () => {
    const open = { ...plan, suits: plan.suits.map((suit) => ({ ...suit, toGive: ["oxygenKg" as const] })) };
    const { text } = levelsAt(1000, open);
    expect(text).toContain("above reserve assumed");
    expect(text).toContain("Read out");
  });
});
