import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BOX, legible, printable } from "../../../src/exchange/paper/glyphs.ts";
import { grouped } from "../../../src/words/index.ts";
import { SIGNS } from "../../../src/exchange/paper/faces/advances.ts";
import { FACE_NAMES } from "../../../src/exchange/paper/faces/files.ts";
import { CAP, clip, fitSize, MM_PER_PT, textWidth, wrap } from "../../../src/exchange/paper/type.ts";
import { advancesOf, heightsOf } from "./measurefaces.ts";

const face = { sizePt: 12, bold: false };
const anyText = fc.oneof(
  fc.string({ unit: "binary", maxLength: 80 }),
  fc.string({ unit: "grapheme", maxLength: 80 }),
);

describe("a line", () => {
  it("is not broken between a number and its unit, whatever its width", () => {
    const words = "Chips fly: visor down, partner 3 m to the side, level within 5 deg, 2 frames of 0.5 kg";
    for (let wide = 14; wide < 120; wide += 1)
      for (const line of wrap(words, wide, face)) {
        expect(line, `${wide} mm`).not.toMatch(/^(m|deg|kg)\b/);
        expect(line, `${wide} mm`).not.toMatch(/[35]$/);
      }
    // Frames are no unit.
    expect(wrap("2 frames", textWidth("frames", face), face)).toEqual(["2", "frames"]);
  });
});

describe("a number in groups", () => {
  it("is never broken between two lines: half of it is another number", () => {
    const words = `worth ${grouped(1590)} of ${grouped(1234567)}`;
    for (let wide = textWidth("1 234 567", face) + 0.01; wide < 60; wide += 0.5) {
      const lines = wrap(words, wide, face);
      expect(lines.join(" ")).toBe("worth 1 590 of 1 234 567");
      for (const whole of ["1 590", "1 234 567"]) expect(lines.join("\n")).toContain(whole);
    }
  });
});

describe("printable", () => {
  it("keeps what the faces have, plainer forms of what they lack, and frames the rest", () => {
    expect(printable("Grüße, 5 µm at 20°")).toBe("Grüße, 5 µm at 20°");
    expect(printable("A→B ≤ 3 − 1")).toBe("A->B <= 3 − 1");
    expect(printable("Łódź Ṽ ﬁne ①")).toBe("Łódź V fine 1");
    expect(printable("採取 🚀")).toBe(`${BOX}${BOX} ${BOX}`);
    expect(printable("\ud800x")).toBe(`${BOX}x`);
  });

  it("is one line without control signs", () => {
    expect(printable("a\tb\r\nc\u0000d\u200be")).toBe("a b cde");
  });

  it("composes letters that come in parts", () => {
    expect(printable("e\u0301")).toBe("é");
  });

  it("never throws and gives only what can be measured", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const width = textWidth(printable(text), face);
        expect(Number.isFinite(width)).toBe(true);
      }),
    );
  });

  it("adds the id to a name that cannot be read", () => {
    expect(legible("採取", "core-2")).toBe("採取 (core-2)");
    expect(legible("Core", "core-2")).toBe("Core");
  });
});

describe("measuring", () => {
  it("uses the widths of the files that are embedded, for every sign and face", () => {
    for (const name of FACE_NAMES) {
      const advances = advancesOf(name);
      expect([...SIGNS.latin, ...SIGNS["latin-ext"]].toSorted()).toEqual([...advances.keys()].toSorted());
      const style = { sizePt: 1000 / MM_PER_PT, bold: /bold/i.test(name), tight: name.startsWith("tight") };
      for (const [sign, units] of advances)
        expect(textWidth(sign, style), `${name} ${sign}`).toBeCloseTo(units, 6);
    }
  });

  it("knows how high capitals and small letters of every face are", () => {
    for (const name of FACE_NAMES) {
      const { cap, small } = heightsOf(name);
      expect(cap, name).toBe(CAP);
      // Of the face where they are least.
      expect(small, name).toBeGreaterThanOrEqual(0.5455);
    }
  });
});

describe("breaking lines", () => {
  it("keeps every line within the width and loses no sign", () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 10, max: 90 }), (text, wide) => {
        const lines = wrap(text, wide, face);
        for (const line of lines) expect(textWidth(line, face)).toBeLessThanOrEqual(wide + 1e-9);
        expect(lines.join("").replaceAll(" ", "")).toBe(printable(text).replaceAll(" ", ""));
      }),
    );
  });

  it("breaks at blanks where it can", () => {
    expect(wrap("one two three", textWidth("one two", face), face)).toEqual(["one two", "three"]);
  });

  it("keeps a number with its unit and with the word that it follows, unless that is wider than the line", () => {
    const wide = (words: string): number => textWidth(words, face);
    expect(wrap("EV2 before 22 26", wide("EV2 before"), face)).toEqual(["EV2", "before 22", "26"]);
    expect(wrap("Sealed rack, plan 1.8 kg", wide("Sealed rack, plan 1.8"), face)).toEqual([
      "Sealed rack,",
      "plan 1.8 kg",
    ]);
    expect(wrap("hatch shut 07:10:40", wide("07:10:40"), face)).toEqual(["hatch", "shut", "07:10:40"]);
  });

  it("chooses the largest size that needs no more lines", () => {
    const wide = textWidth("Double core tube", { sizePt: 14, bold: true });
    expect(fitSize("Double core tube", wide, true, [18, 16, 14, 12], 1)).toBe(14);
    expect(fitSize("Double core tube", 3, true, [18, 12], 1)).toBe(12);
  });

  it("clips running heads with an ellipsis that still fits", () => {
    const clipped = clip("A very long plan title", 20, face);
    expect(clipped.endsWith("…")).toBe(true);
    expect(textWidth(clipped, face)).toBeLessThanOrEqual(20);
    expect(clip("Short", 20, face)).toBe("Short");
  });
});
