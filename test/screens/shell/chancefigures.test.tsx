// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { MANY_DAYS } from "../../../src/session/index.ts";
import { FEW_DAYS } from "../../../src/session/chances.ts";
import {
  chanceFigure,
  chanceInterval,
  slackWords,
  standingAgainst,
} from "../../../src/screens/chancewords.ts";
import { ChanceFigures } from "../../../src/screens/shell/chancefigures.tsx";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";
import { chancesReport } from "../../session/answers.ts";
import { settled } from "../../session/bench.ts";
import { setStage, show } from "../setup/stage.tsx";

setStage();

const figure = (name: string): HTMLElement => document.querySelector<HTMLElement>(`[aria-label="${name}"]`)!;
const elsewhere = { eva: "eva-1", crew: ["ev2"], startS: instant(9000) };

describe("a chance in one figure", () => {
  it.each([
    // 1601 of 2000 is 80.05 %: down; Wilson 78.2 to 81.8: outwards.
    [1601, 2000, "80 %", "78 to 82 %"],
    [29, 100, "29 %", "21 to 39 %"],
    // Of 2000 days on which it happened each time, no more is known than over 99.8 %.
    [2000, 2000, ">99 %", null],
    [0, 2000, "<1 %", null],
    [1999, 2000, "99 %", "99 to 100 %"],
    [0, 0, "unknown", null],
  ])("%i of %i days: %s", (count, of, words, interval) => {
    expect(chanceFigure(chanceOf(count, of))).toBe(words);
    expect(chanceInterval(chanceOf(count, of))).toBe(interval);
  });

  it.each([
    [2000, 2000, 0.99, "meets"],
    [1700, 2000, 0.9, "below"],
    // 90.0 % counted: the chance may be 88.6 %.
    [1800, 2000, 0.9, "may be below"],
    // The same on few days says nothing yet; but what is far below is known at once.
    [270, 300, 0.9, "open"],
    [200, 300, 0.9, "below"],
    [0, 0, 0.9, "open"],
  ])("%i of %i days against %f: %s", (count, of, wish, standing) => {
    expect(standingAgainst(chanceOf(count, of), wish)).toBe(standing);
  });

  it.each([
    [629, "slack 10 min"],
    [59, "no slack"],
    [-59, "no slack"],
    // Late by 61 s is late by 2 min: never made better.
    [-61, "2 min late"],
    [5400, "slack 1:30"],
  ])("a slack of %i s: %s", (slackS, words) => {
    expect(slackWords(slackS)).toBe(words);
  });
});

describe("the three chances in the score", () => {
  it("stand apart, each beside its wish, with the crew's rules to be asked; below the wish in words", async () => {
    const { engine } = show(<ChanceFigures />);
    expect(figure("everybody home").textContent).toContain("being worked out…");
    const report = chancesReport({
      days: MANY_DAYS,
      home: chanceOf(2000, 2000),
      must: chanceOf(1601, 2000),
      whole: chanceOf(340, 2000),
    });
    await act(async () => engine.glances[0]!.answer(report));
    expect(figure("everybody home").textContent).toContain(">99 %");
    expect(figure("everybody home").textContent).toContain("meets wish 99 %");
    expect(figure("everybody home").className).toContain("fine");
    expect(figure("every must-do done").textContent).toContain("80 %");
    expect(figure("every must-do done").textContent).toContain("78 to 82 %");
    expect(figure("every must-do done").textContent).toContain("below wish 90 %");
    expect(figure("every must-do done").className).toContain("breach");
    expect(figure("nothing missed").textContent).toContain("17 %");
    expect(figure("nothing missed").textContent).toContain("crew acts, caution 25 %");
    expect(figure("every must-do done").dataset["current"]).toBe("true");
  });

  it("are said to be worked out again as soon as the day is another, and unknown where that failed", async () => {
    const { session, engine } = show(<ChanceFigures />);
    await act(async () => engine.glances[0]!.answer(chancesReport({ days: FEW_DAYS })));
    await act(async () => {
      session.place("two", elsewhere);
      await settled();
    });
    expect(figure("every must-do done").dataset["current"]).toBe("false");
    expect(figure("every must-do done").textContent).toContain("worked out again…");
    const last = engine.glances.at(-1)!;
    expect(last.days).toBe(FEW_DAYS);
    await act(async () => last.fail("too large"));
    expect(figure("every must-do done").textContent).toContain("unknown");
    expect(figure("every must-do done").textContent).not.toContain("%–");
    expect(figure("every must-do done").querySelector(".figure")!.textContent).toBe("–");
  });

  it("are none of an empty day", async () => {
    const { session, engine } = show(<ChanceFigures />, (begun) => begun.bench(["one"]));
    expect(figure("everybody home").textContent).toContain("nothing placed");
    expect(engine.glances).toHaveLength(0);
    await act(async () => {
      session.place("one", elsewhere);
      await settled();
    });
    expect(engine.glances).toHaveLength(1);
  });
});
