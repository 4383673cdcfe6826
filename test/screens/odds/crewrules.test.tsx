// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import { CrewRulesPart, differenceWords } from "../../../src/screens/odds/crewrules.tsx";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";
import { oddsReport } from "../../session/answers.ts";
import { click, setStage, show } from "../setup/stage.tsx";

setStage();

const outcome = (must: number, meanWorth: number) => ({
  home: chanceOf(1000, 1000),
  must: chanceOf(must, 1000),
  meanWorth,
});
const now = outcome(820, 1700.4);

describe("how the crew acts", () => {
  it.each([
    [outcome(980, 1630.2), "must-do from 82 % to 98 %, worth −71 on average"],
    // 0.4 less is not said to be the same: the loss is rounded up.
    [outcome(820, 1700), "worth −1 on average"],
    [outcome(820, 1700.4), "worth the same"],
    [{ ...outcome(820, 1703.9), home: chanceOf(881, 1000) }, "home from >99 % to 88 %, worth +3 on average"],
  ])("says what changes and no more (%#)", (then, words) => {
    expect(differenceWords(now, then)).toBe(words);
  });

  it("names each rule with what the day would come to without it, and offers the caution as a dial", () => {
    const report = oddsReport({
      home: now.home,
      must: now.must,
      worth: { ...oddsReport().worth, mean: now.meanWorth },
      otherwise: {
        without: [{ rule: "goesAhead", outcome: outcome(540, 1640.4) }],
        byCaution: [
          { caution: 0.25, outcome: now },
          { caution: 0.75, outcome: outcome(980, 1630.4) },
        ],
        independent: null,
        unhindered: null,
      },
    });
    const { session } = show(<CrewRulesPart report={report} lack={null} />);
    const text = document.body.textContent ?? "";
    expect(text).toContain("Goes ahead when ready");
    expect(text).toContain("Without it: must-do from 82 % to 54 %, worth −60 on average.");
    expect(text).toContain("leaves out earlier: must-do from 82 % to 98 %, worth −70 on average");
    click(document.querySelectorAll<HTMLElement>("input[name=caution]")[1]!);
    expect(session.state.getState().plan.odds.crew.caution).toBe(0.75);
    act(() => session.undo());
    expect(session.state.getState().plan.odds.crew.caution).toBe(0.25);
  });

  it("says of a crew that carries on that it does none of this", () => {
    const rules = { goesAhead: false, breaksOff: false, leavesOut: false, restsByRule: false, caution: 0 };
    show(<CrewRulesPart report={oddsReport({ crew: rules })} lack={null} />);
    expect(document.body.textContent).toContain("The crew carries on regardless");
    expect(document.querySelector("input")).toBeNull();
  });
});
