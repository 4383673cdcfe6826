import { expect, it } from "vitest";
import { wordsOf } from "../../../../src/screens/day/line/paintblocks.ts";

/** Seven pixels a letter. */
const px = (text: string): number => 7 * text.length;

/** What is written into a row of work by command, 18 px tall and so wide. */
function written(widthPx: number, marked: boolean): string[] {
  const slab = {
    left: 100,
    right: 100 + widthPx,
    topLeft: 0,
    topRight: 0,
    bottomLeft: 18,
    bottomRight: 18,
  };
  const form = { slab, sense: "up", thickPx: 18, across: false, row: true } as const;
  const words = { number: "12", name: "Wake the station by command", facts: [] };
  return wordsOf(form, words, { widthPx: 900, plate: false, marked }, px).lines.map(({ text }) => text);
}

it("writes the number of work by command beside the mark of a state, or leaves it to the name outside", () => {
  expect(written(25, false)).toEqual(["12"]);
  expect(written(25, true)).toEqual([]);
  expect(written(42, true)).toEqual(["12"]);
});
