import { describe, expect, it } from "vitest";
import { cautionLine, gravestFirst } from "../../src/words/index.ts";

describe("cautions", () => {
  it("are read out the gravest first, those of one class as they were written", () => {
    const lines = gravestFirst([
      { class: "note", text: "Long climb." },
      { class: "caution", text: "Brush grit off." },
      { class: "warning", text: "Loose rim." },
      { class: "warning", text: "Rammer up." },
    ]).map(cautionLine);
    expect(lines).toEqual([
      "WARNING: Loose rim.",
      "WARNING: Rammer up.",
      "CAUTION: Brush grit off.",
      "NOTE: Long climb.",
    ]);
  });
});
