import { describe, expect, it } from "vitest";
import type { SitePlace } from "../../../src/answers/index.ts";
import { instant, type Interval } from "../../../src/kernel/index.ts";
import { lightWord, lightWords } from "../../../src/screens/site/lightwords.ts";

const span = (startS: number, endS: number): Interval => ({ startS: instant(startS), endS: instant(endS) });
const place = (lit: readonly Interval[] | null, shaded: readonly Interval[] | null) =>
  ({ lit, shaded }) as unknown as SitePlace;
const say = (one: SitePlace, atS: number): string => lightWords(one, atS, (s) => `${s} s`, null);

describe("what is said of a place's light", () => {
  it("is lit or shadow only where that is sure", () => {
    // Sure shadow to 100, unknown ground before the sun to 200, lit from then on.
    const holed = place([span(201, 300)], [span(0, 100)]);
    expect([50, 150, 250].map((at) => lightWord(holed, at))).toEqual(["shadow", "unknown", "lit"]);
    expect(say(holed, 50)).toBe("In shadow to 100 s, then not known.");
    expect(say(holed, 150)).toContain("not known: unknown ground may hide it");
    expect(say(holed, 250)).toBe(
      "By the plan’s heights lit from 201 s to 300 s. Hills beyond the plan’s heights are not known.",
    );
  });

  it("goes from one to the other where nothing between is unknown, and is unknown where nothing is known", () => {
    const plain = place([span(101, 200)], [span(0, 100), span(201, 300)]);
    expect(say(plain, 50)).toBe(
      "By the plan’s heights in shadow until 101 s. Hills beyond the plan’s heights are not known.",
    );
    expect(say(plain, 250)).toBe("In shadow to the end of the stay.");
    expect(lightWord(place(null, null), 5)).toBe("unknown");
    expect(say(place(null, null), 5)).toContain("not known");
  });

  it("without heights is the sun over a level horizon, shadow unknown", () => {
    const at = (sunDeg: number | null) => lightWords(place(null, null), 0, (s) => `${s} s`, sunDeg);
    expect(at(2.55)).toBe("Sun up 2.5° over a level horizon, shadow unknown: no heights are known here.");
    expect(at(-2.55)).toBe("Sun down 2.5° over a level horizon, shadow unknown: no heights are known here.");
    expect(at(null)).toBe("Whether the sun shines here is not known.");
    // Deep in the night shadow is sure all the same, and what comes after is not.
    const night = place(null, [span(0, 100)]);
    expect(lightWord(night, 50)).toBe("shadow");
    expect(say(night, 50)).toBe("In shadow to 100 s, then not known.");
  });
});
