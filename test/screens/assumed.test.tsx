import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { spokenDay } from "../../src/screens/day/speech.ts";
import { spareWords } from "../../src/screens/fields/sparewords.ts";
import { isPartAssumed } from "../../src/screens/margins/striptexts.ts";
import { marginRows } from "../../src/screens/margins/rows.ts";
import { ScoreFigure } from "../../src/screens/parts/scorefigure.tsx";
import { isWorstAssumed, marginState, orAssumed } from "../../src/screens/words.ts";
import { fixturePlan, fixtureSchedule } from "../editor/fixture.ts";

/** A margin of what nobody has given never stands like one that is known: one word says so right where the figure is. */

const schedule = fixtureSchedule();
const lacking = (fields: NonNullable<Plan["suits"][number]["toGive"]>): Plan => {
  const plan = fixturePlan();
  return {
    ...plan,
    suits: plan.suits.map((suit) => {
      const rest = { ...suit };
      delete rest.toGive;
      return fields.length > 0 ? { ...rest, toGive: fields } : rest;
    }),
  };
};
const given = lacking([]);
const oxygenless = lacking(["oxygenKg"]);
const rowsOf = (plan: Plan, which: "all" | "least" = "all") =>
  marginRows(plan, schedule, judgeFor(plan)(schedule), which);

describe("a margin of what nobody has given of a suit", () => {
  it("says so in its row and its EVA's part, of that consumable alone, and is never told to be enough", () => {
    const assumed = (plan: Plan) =>
      rowsOf(plan)
        .filter((row) => row.assumed)
        .map(({ label }) => label);
    expect(new Set(assumed(given))).toEqual(new Set());
    expect(new Set(assumed(oxygenless))).toEqual(new Set(["Oxygen"]));
    expect(new Set(assumed(lacking(["emergencyOxygenS"])))).toEqual(new Set(["Walk-back, to spare"]));
    for (const row of rowsOf(oxygenless))
      if (row.assumed) {
        expect(["none", "breach"]).toContain(row.status);
        for (const part of row.parts ?? []) expect(part.assumed).toBe(true);
      }
    // The least of a suit is not known where one of its four is not.
    const [least] = rowsOf(oxygenless, "least");
    expect(least).toMatchObject({ kind: "least", assumed: true });
    expect(least!.parts!.every(({ eva }) => isPartAssumed(least!, eva))).toBe(true);
    const [known] = rowsOf(given, "least");
    expect(known!.parts!.some(({ eva }) => isPartAssumed(known!, eva))).toBe(false);
  });

  it("stands with that word in the score, in speech and in what is painted, and not as good or tight", () => {
    const verdict = judgeFor(oxygenless)(schedule);
    expect(isWorstAssumed(oxygenless, verdict)).toBe(true);
    expect(isWorstAssumed(given, judgeFor(given)(schedule))).toBe(false);
    expect([marginState(given, 0.5, false), marginState(given, 0.5, true)]).toEqual(["fine", "plain"]);
    expect([marginState(given, 0.001, false), marginState(given, 0.001, true)]).toEqual(["tight", "plain"]);
    expect(marginState(given, -0.1, true)).toBe("breach");
    expect(marginState(given, null, false)).toBe("plain");
    expect(spokenDay(oxygenless, verdict)).toMatch(/Worst margin \S+ % assumed,/);
    expect(spokenDay(given, judgeFor(given)(schedule))).not.toContain("assumed");
    expect([orAssumed("7 %", true), orAssumed("7 %", false)]).toEqual(["7 %, assumed", "7 %"]);
    const figure = (assumed: boolean) =>
      renderToStaticMarkup(
        <ScoreFigure
          state="plain"
          value="7 %"
          name="worst margin"
          change={0}
          better="more"
          assumed={assumed}
        />,
      );
    expect(figure(true)).toContain(" assumed</small>");
    expect(figure(false)).not.toContain("assumed");
  });

  it("is not known to be spared beside the flight rules that go by it", () => {
    const words = (plan: Plan, rule: "oxygen-reserve" | "walk-back-emergency") =>
      spareWords(plan, judgeFor(plan)(schedule), [rule]);
    expect(words(given, "oxygen-reserve")!.text).not.toContain("assumed");
    expect(words(oxygenless, "oxygen-reserve")).toMatchObject({ state: "unknown" });
    expect(words(oxygenless, "oxygen-reserve")!.text).toContain(", assumed");
    expect(words(oxygenless, "walk-back-emergency")!.text).not.toContain("assumed");
    expect(words(lacking(["emergencyOxygenS"]), "walk-back-emergency")!.text).toContain(", assumed");
  });
});
