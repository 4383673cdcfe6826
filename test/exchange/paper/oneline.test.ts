import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Blank, Caution } from "../../../src/plan/index.ts";
import type { Block } from "../../../src/exchange/paper/flow.ts";
import { cautionForm, ifThenForm, ownStep, roomy } from "../../../src/exchange/paper/forms.ts";
import { cautionUse, stepUse, STEP_PT } from "../../../src/exchange/paper/oneline.ts";
import { fitsOneLine } from "./fitsoneline.ts";

/** What is counted while one types must be what the page does with it. */

const setting = roomy(STEP_PT);
const words = fc
  .array(fc.string({ unit: fc.constantFrom(..."abilmnoWM3"), minLength: 1, maxLength: 9 }), {
    minLength: 1,
    maxLength: 9,
  })
  .map((list) => list.join(" "));
const blanks = fc.constantFrom<(Blank | undefined)[]>(
  undefined,
  { of: "photo", unit: "" },
  { of: "mass", unit: "" },
  { of: "reading", unit: "O2 %" },
);

/** Baselines at which blocks set the size of what is read. */
function lines(blocks: readonly Block[], sizePt = STEP_PT): number {
  const ys = blocks.flatMap((block, k) =>
    block
      .draw(1000 * k)
      .flatMap((mark) => (mark.kind === "text" && mark.sizePt === sizePt ? [mark.y.toFixed(3)] : [])),
  );
  return new Set(ys).size;
}

/** A blank on a line of its own is a line more, though it has no text of that size. */
function high(blocks: readonly Block[]): number {
  return blocks.reduce((sum, { height }) => sum + height, 0);
}

describe("what fits one line while it is written", () => {
  it("is one line on the page, and what does not is more, for every class of caution", () => {
    fc.assert(
      fc.property(words, fc.constantFrom("warning", "caution", "note"), (text, kind) => {
        const caution: Caution = { class: kind, text };
        expect(lines(cautionForm(kind, [text], setting)) === 1).toBe(fitsOneLine(cautionUse(caution)));
      }),
    );
  });

  it("is one line on the page for a step with and without a blank", () => {
    const least = high(ownStep(1, "a", setting));
    fc.assert(
      fc.property(words, blanks, (text, blank) => {
        const fits = fitsOneLine(stepUse({ text, ...(blank ? { blank } : {}) }));
        expect(high(ownStep(1, text, setting, blank)) <= least).toBe(fits);
      }),
    );
  });

  it("is one line a cell for IF and THEN", () => {
    // No cell of more than one line where both fit one over the other; side by side a short IF leaves a THEN more room than that.
    const most = high(ifThenForm("a".repeat(30), "a".repeat(30), "", setting));
    fc.assert(
      fc.property(words, words, blanks, (when, text, blank) => {
        fc.pre(fitsOneLine(stepUse({ when, text, ...(blank ? { blank } : {}) })));
        expect(high(ifThenForm(when, text, "", setting, blank))).toBeLessThanOrEqual(most + 1e-9);
      }),
    );
  });
});
