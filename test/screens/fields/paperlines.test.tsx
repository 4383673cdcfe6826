// @vitest-environment jsdom
import { describe, expect, it } from "vitest";
import { cautionUse, lineUses, stepUse } from "../../../src/exchange/paper/oneline.ts";
import { fitsOneLine } from "../../exchange/paper/fitsoneline.ts";
import { textWidth } from "../../../src/exchange/paper/type.ts";
import { PaperLines, PaperLinesFit } from "../../../src/screens/fields/paperlines.tsx";
import { setStage, show } from "../setup/stage.tsx";

setStage();

const step = (text: string) => ({ text, cautions: [] });

describe("a line of the crew's page at 14 pt", () => {
  it("has the width of the page less box and number, frame and word, or blank, measured in the embedded face", () => {
    // 86 mm between the margins, 11.8 for box and number; a blank takes a rule of 11, its unit 0.8 after it, and 2 before it.
    expect(stepUse(step("Scoop"))).toEqual({
      takesMm: textWidth("Scoop", { sizePt: 14, bold: false }),
      roomMm: 86 - 11.8,
    });
    expect(stepUse({ ...step("Scoop"), blank: { of: "mass", unit: "" } }).roomMm).toBeCloseTo(
      86 - 11.8 - 11 - 0.8 - textWidth("kg", { sizePt: 12, bold: false }) - 2,
      9,
    );
    // A warning is bold and loses more to its frame than a note.
    const room = (kind: "warning" | "note") => cautionUse({ class: kind, text: "x" }).roomMm;
    expect(room("warning")).toBeLessThan(room("note"));
    expect(cautionUse({ class: "warning", text: "Hot" }).takesMm).toBe(
      textWidth("Hot", { sizePt: 14, bold: true }),
    );
  });

  it("of IF and THEN is told for the one with less to spare", () => {
    const long = "the lamp on the north side of the node is red";
    expect(fitsOneLine(stepUse({ ...step("Call"), when: long }))).toBe(false);
    expect(stepUse({ ...step("Call"), when: long }).takesMm).toBe(
      textWidth(long, { sizePt: 14, bold: false }),
    );
    expect(fitsOneLine(stepUse({ ...step("Call"), when: "lamp red" }))).toBe(true);
  });
});

describe("while steps are written", () => {
  const said = (value: unknown): string => {
    show(
      <PaperLines value={lineUses}>
        <PaperLinesFit kind="steps" value={value} />
      </PaperLines>,
    );
    return document.querySelector(".paper-lines")?.textContent ?? "";
  };

  it("is said that each fits, and what room the last has", () => {
    expect(said([step("Scoop"), step("Seal")])).toMatch(
      /^Each fits one line at 14 pt; the last has room for about \d+ letters\.$/,
    );
  });

  it("is said which do not, counted with what guards them", () => {
    const guarded = { text: "Seal", cautions: [{ class: "warning" as const, text: "x".repeat(60) }] };
    expect(said([step("Scoop"), guarded, step("y".repeat(60))])).toMatch(
      /^Not on one line at 14 pt: line 2 by about \d+ letters, line 4 by about \d+ letters\.$/,
    );
  });
});
